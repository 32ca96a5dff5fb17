// __vite-optional-peer-dep:class-transformer:@nestjs/common
var common_default = {};
throw new Error(`Could not resolve "class-transformer" imported by "@nestjs/common". Is it installed?`);
export { common_default as default };
