// __vite-optional-peer-dep:ts-morph:@nestjs/graphql
var graphql_default = {};
throw new Error(`Could not resolve "ts-morph" imported by "@nestjs/graphql". Is it installed?`);
export { graphql_default as default };
