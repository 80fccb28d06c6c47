/** A worker whose script is part of the page's own: it starts without a request, and without a server. */
declare module "*?worker&inline" {
  const makeWorker: new (options?: { readonly name?: string }) => Worker;
  export default makeWorker;
}
