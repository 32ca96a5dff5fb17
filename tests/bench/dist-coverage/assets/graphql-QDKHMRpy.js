// __vite-optional-peer-dep:@apollo/subgraph:@nestjs/graphql
var graphql_default = {};
throw new Error(`Could not resolve "@apollo/subgraph" imported by "@nestjs/graphql". Is it installed?`);
export { graphql_default as default };
