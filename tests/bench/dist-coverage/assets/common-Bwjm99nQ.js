// __vite-optional-peer-dep:class-validator:@nestjs/common
var common_default = {};
throw new Error(`Could not resolve "class-validator" imported by "@nestjs/common". Is it installed?`);
export { common_default as default };
