/** Injection token of the `Config` read at start. */
export const CONFIG = Symbol('CONFIG');
