/**
 * What crosses between the page's worlds and the main process in the double, as JSON: the kinds of value that
 * structured cloning knows, and a refusal of those it does not, as in Electron. The source is text because the page
 * needs it, too.
 */
export const CODEC_SOURCE = String.raw`
function encodeValue(value) {
  if (value === null || typeof value === "string" || typeof value === "boolean") return value;
  if (typeof value === "number")
    return Number.isFinite(value) && !Object.is(value, -0) ? value : { $: "number", value: Object.is(value, -0) ? "-0" : String(value) };
  if (value === undefined) return { $: "undefined" };
  if (typeof value === "bigint") return { $: "bigint", value: String(value) };
  if (typeof value === "function" || typeof value === "symbol") throw new Error("An object could not be cloned.");
  if (Array.isArray(value)) return value.map(encodeValue);
  const tag = Object.prototype.toString.call(value).slice(8, -1);
  if (tag === "Date") return { $: "date", value: value.getTime() };
  if (tag === "Map") return { $: "map", value: [...value].map((pair) => pair.map(encodeValue)) };
  if (tag === "Set") return { $: "set", value: [...value].map(encodeValue) };
  if (tag === "Uint8Array") {
    let text = "";
    for (let at = 0; at < value.length; at += 8192) text += String.fromCharCode(...value.subarray(at, at + 8192));
    return { $: "bytes", value: btoa(text) };
  }
  if (tag !== "Object") throw new Error("An object could not be cloned: " + tag);
  return { $: "object", value: Object.fromEntries(Object.entries(value).map(([key, each]) => [key, encodeValue(each)])) };
}
function decodeValue(coded) {
  if (coded === null || typeof coded !== "object") return coded;
  if (Array.isArray(coded)) return coded.map(decodeValue);
  switch (coded.$) {
    case "number": return Number(coded.value);
    case "undefined": return undefined;
    case "bigint": return BigInt(coded.value);
    case "date": return new Date(coded.value);
    case "map": return new Map(coded.value.map(([key, each]) => [decodeValue(key), decodeValue(each)]));
    case "set": return new Set(coded.value.map(decodeValue));
    case "bytes": return Uint8Array.from(atob(coded.value), (letter) => letter.charCodeAt(0));
    case "object": return Object.fromEntries(Object.entries(coded.value).map(([key, each]) => [key, decodeValue(each)]));
  }
  throw new Error("not a coded value");
}`;

type Codec = { readonly encode: (value: unknown) => unknown; readonly decode: (coded: unknown) => unknown };

const made = new Function(`${CODEC_SOURCE}; return { encode: encodeValue, decode: decodeValue };`) as () => Codec;

export const { encode, decode } = made();
