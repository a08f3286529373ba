/** The two scripts that make a page of Chromium look like a window of Electron with a sandboxed preload. */
import { CODEC_SOURCE } from "./codec.ts";

/** In the page's own world: builds what the preload exposes. It knows nothing of messages to the main process. */
export const pageWorldScript = (secret: string): string => `(() => {
  if (window !== window.top) return;
  ${CODEC_SOURCE}
  const SECRET = ${JSON.stringify(secret)};
  const callbacks = new Map(), pending = new Map();
  let count = 0, last = null;
  const fire = (kind, detail) => window.dispatchEvent(new CustomEvent(SECRET + kind, { detail: JSON.stringify(detail) }));
  const on = (kind, take) => window.addEventListener(SECRET + kind, (event) => {
    event.stopImmediatePropagation();
    take(JSON.parse(event.detail));
  }, true);
  const argument = (value) => {
    if (typeof value !== "function") return encodeValue(value);
    for (const [id, known] of callbacks) if (known === value) return { $function: id };
    callbacks.set(++count, value);
    return { $function: count };
  };
  const build = (shape) => {
    if (shape.kind === "function") return (...given) => call(shape.id, given);
    if (shape.kind === "value") return decodeValue(shape.value);
    return Object.freeze(Object.fromEntries(Object.entries(shape.value).map(([key, each]) => [key, build(each)])));
  };
  const call = (id, given) => {
    last = null;
    fire("call", { id, given: given.map(argument) });
    const answer = last;
    if (answer === null) throw new Error("the preload is gone");
    if (answer.thrown !== undefined) throw new Error(answer.thrown);
    if (answer.promise) return new Promise((resolve, reject) => pending.set(answer.promise, { resolve, reject }));
    return answer.shape ? build(answer.shape) : decodeValue(answer.value);
  };
  on("answer", (answer) => { last = answer; });
  on("settled", ({ promise, thrown, value }) => {
    const waiting = pending.get(promise);
    pending.delete(promise);
    if (thrown !== undefined) waiting?.reject(new Error(thrown));
    else waiting?.resolve(decodeValue(value));
  });
  on("callback", ({ id, given }) => callbacks.get(id)?.(...given.map(decodeValue)));
  on("expose", ({ name, shape }) => Object.defineProperty(window, name, { value: build(shape), enumerable: true }));
})();`;

/** In a world of its own beside the page's: the preload, with the little that a sandboxed one may ask for. */
export const preloadScript = (secret: string, preload: string, binding: string): string => `(() => {
  if (window !== window.top) return;
  ${CODEC_SOURCE}
  const SECRET = ${JSON.stringify(secret)}, send = globalThis[${JSON.stringify(binding)}];
  delete globalThis[${JSON.stringify(binding)}];
  const up = (message) => send(JSON.stringify(message));
  const functions = new Map(), proxies = new Map();
  let count = 0;
  const fire = (kind, detail) => window.dispatchEvent(new CustomEvent(SECRET + kind, { detail: JSON.stringify(detail) }));
  const holdsFunctions = (value) => typeof value === "object" && value !== null && Object.values(value).some((each) => typeof each === "function");
  const shapeOf = (value) => {
    if (typeof value === "function") { functions.set(++count, value); return { kind: "function", id: count }; }
    if (value !== null && typeof value === "object" && Object.getPrototypeOf(value) === Object.prototype)
      return { kind: "object", value: Object.fromEntries(Object.entries(value).map(([key, each]) => [key, shapeOf(each)])) };
    return { kind: "value", value: encodeValue(value) };
  };
  const argument = (coded) => {
    const id = coded?.$function;
    if (id === undefined) return decodeValue(coded);
    if (!proxies.has(id)) proxies.set(id, (...given) => fire("callback", { id, given: given.map(encodeValue) }));
    return proxies.get(id);
  };
  const wordsOf = (cause) => String(cause?.message ?? cause);
  window.addEventListener(SECRET + "call", (event) => {
    event.stopImmediatePropagation();
    const { id, given } = JSON.parse(event.detail);
    let answer;
    try {
      const value = functions.get(id)(...given.map(argument));
      if (typeof value?.then === "function") {
        const promise = ++count;
        answer = { promise };
        value.then((result) => fire("settled", { promise, value: encodeValue(result) })).catch((cause) => fire("settled", { promise, thrown: wordsOf(cause) }));
      } else answer = typeof value === "function" || holdsFunctions(value) ? { shape: shapeOf(value) } : { value: encodeValue(value) };
    } catch (cause) { answer = { thrown: wordsOf(cause) }; }
    fire("answer", answer);
  }, true);
  const listeners = new Map(), waiting = new Map();
  const ipcRenderer = {
    on(channel, listener) { listeners.set(channel, [...(listeners.get(channel) ?? []), listener]); return ipcRenderer; },
    removeListener(channel, listener) { listeners.set(channel, (listeners.get(channel) ?? []).filter((each) => each !== listener)); return ipcRenderer; },
    send(channel, ...given) { up({ kind: "send", channel, given: given.map(encodeValue) }); },
    invoke(channel, ...given) {
      return new Promise((resolve, reject) => {
        const id = ++count;
        const coded = given.map(encodeValue);
        waiting.set(id, { resolve, reject });
        up({ kind: "invoke", id, channel, given: coded });
      });
    },
  };
  globalThis.fromMain = (text) => {
    const message = JSON.parse(text);
    if (message.kind === "tell") {
      for (const listener of listeners.get(message.channel) ?? []) listener({ sender: ipcRenderer, ports: [] }, ...message.given.map(decodeValue));
      return;
    }
    const { resolve, reject } = waiting.get(message.id);
    waiting.delete(message.id);
    if (message.thrown !== undefined) reject(new Error(message.thrown));
    else resolve(decodeValue(message.value));
  };
  const electron = {
    contextBridge: { exposeInMainWorld: (name, value) => void fire("expose", { name, shape: shapeOf(value) }) },
    ipcRenderer,
    // Electron, too, gives nothing for a file that no disk holds; real drops cannot be made here.
    webUtils: { getPathForFile: () => "" },
  };
  const require = (name) => {
    if (name !== "electron") throw new Error("module not found: " + name + " (sandboxed preload)");
    return electron;
  };
  // Keys that the page left alone go to the menu.
  window.addEventListener("keydown", (event) => {
    if (event.defaultPrevented) return;
    const { ctrlKey: ctrl, metaKey: meta, altKey: alt, shiftKey: shift, key } = event;
    if (ctrl || meta || alt || /^F\\d+$/.test(key)) up({ kind: "key", ctrl, meta, alt, shift, key });
  });
  try {
    const module = { exports: {} };
    (function (exports, module, require) {
${preload}
    })(module.exports, module, require);
  } catch (cause) { up({ kind: "preload-broke", text: String(cause?.stack ?? cause) }); }
})();`;
