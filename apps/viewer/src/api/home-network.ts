import { graphql, type ResultOf } from './graphql.js';

const homeNetworkParts = graphql(`
  fragment HomeNetworkParts on HomeNetwork {
    chosen
    barred
    problem
    open {
      port
      fingerprint
      certificateUntil
      authorityUntil
      nameTaken
      addresses {
        address
        name
        setUpAddress
        setUpQr {
          size
          path
        }
      }
    }
  }
`);

export const HOME_NETWORK = graphql(
  `
    query HomeNetwork {
      homeNetwork {
        ...HomeNetworkParts
      }
    }
  `,
  [homeNetworkParts],
);

export const CHOOSE_HOME_NETWORK = graphql(
  `
    mutation ChooseHomeNetwork($open: Boolean!) {
      chooseHomeNetwork(open: $open) {
        ...HomeNetworkParts
      }
    }
  `,
  [homeNetworkParts],
);

export type HomeNetwork = ResultOf<typeof HOME_NETWORK>['homeNetwork'];
export type OpenHomeNetwork = NonNullable<HomeNetwork['open']>;
