// __vite-optional-peer-dep:@nestjs/microservices:@nestjs/core
var core_default = {};
throw new Error(`Could not resolve "@nestjs/microservices" imported by "@nestjs/core". Is it installed?`);
export { core_default as default };
