import type DataLoader from 'dataloader';

/** Holds one loader a request, so that batching and caching never reach into another request. */
export class PerRequest<Loader extends DataLoader<never, unknown> | DataLoader<string, unknown>> {
  private readonly held = new WeakMap<object, Loader>();

  constructor(private readonly make: () => Loader) {}

  of(context: object): Loader {
    let loader = this.held.get(context);
    if (loader === undefined) {
      loader = this.make();
      this.held.set(context, loader);
    }
    return loader;
  }
}
