/** Asks an install that runs in a process of its own, with the session it was last given. */
export abstract class AskingInstall {
  protected cookie = '';

  /** Where it answers now: another port after each start. */
  abstract get url(): string;

  async send<Data>(query: string, variables: object = {}) {
    const response = await fetch(`${this.url}/graphql`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', cookie: this.cookie },
      body: JSON.stringify({ query, variables }),
    });
    return (await response.json()) as {
      data: Data | null;
      errors?: readonly { message: string; extensions: { code: string } }[];
    };
  }

  async graphql<Data>(query: string, variables?: object): Promise<Data> {
    const { data, errors } = await this.send<Data>(query, variables);
    if (errors !== undefined || data === null) throw new Error(JSON.stringify(errors));
    return data;
  }
}
