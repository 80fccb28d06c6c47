/** Makes every chunk when it is first asked for: each is a function of `require`, its exports and its module. */
function user(chunks) {
  const made = {};
  return function use(path) {
    const name = path.slice(path.lastIndexOf("/") + 1);
    if (made[name] === undefined) {
      made[name] = { exports: {} };
      chunks[name](use, made[name].exports, made[name]);
    }
    return made[name].exports;
  };
}

/** What the page asks of its scripts; `needs` names the chunks of every worker, `laterFile` is beside this file. */
// biome-ignore lint/correctness/noUnusedVariables: called by what plainScripts.ts writes around it
function scriptsOf(chunks, needs, laterFile) {
  const use = user(chunks);
  const beside = document.currentScript.src.replace(/[^/]*$/, "");
  let loading = null;
  const load = () =>
    new Promise((done, fail) => {
      const script = document.createElement("script");
      script.onload = () => done(use("later.js"));
      script.onerror = () => {
        loading = null;
        script.remove();
        fail(new Error("part of this page did not load: load the page again"));
      };
      script.src = beside + laterFile;
      document.head.append(script);
    });
  return {
    page: () => use("index.js"),
    later() {
      loading ??= load();
      return loading;
    },
    worker(entry, name) {
      const own = needs[entry].map((chunk) => `${JSON.stringify(chunk)}:${chunks[chunk]}`);
      const text = `(${user})({${own.join(",")}})(${JSON.stringify(entry)})`;
      const address = URL.createObjectURL(new Blob([text], { type: "text/javascript" }));
      const worker = new Worker(address, { name });
      URL.revokeObjectURL(address);
      return worker;
    },
  };
}
