// __vite-optional-peer-dep:@nestjs/websockets/socket-module.js:@nestjs/core
var core_default = {};
throw new Error(`Could not resolve "@nestjs/websockets/socket-module.js" imported by "@nestjs/core". Is it installed?`);
export { core_default as default };
