/**
 * How a request for one of the window's own files is answered, whoever serves them: the desktop's own scheme or the
 * server on 127.0.0.1. Only files below one folder, with a fixed table of kinds, and the same strict policy on every
 * answer, refusals too.
 */
import { readFile } from "node:fs/promises";
import * as path from "node:path";

/** No inline script, no eval, nothing from outside, nobody may frame it. */
export const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
  "object-src 'none'",
].join("; ");

/** @type {Readonly<Record<string, string>>} */
const KINDS = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".txt": "text/plain; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".woff2": "font/woff2",
};

/** @type {Readonly<Record<string, string>>} */
const HEADERS = {
  "content-security-policy": CONTENT_SECURITY_POLICY,
  "x-content-type-options": "nosniff",
  "referrer-policy": "no-referrer",
  "cross-origin-resource-policy": "same-origin",
  "cross-origin-opener-policy": "same-origin",
  "cache-control": "no-store",
};

/**
 * @typedef {object} Answer
 * @property {number} status
 * @property {Record<string, string>} headers
 * @property {Uint8Array<ArrayBuffer> | null} body null where there is none to send
 */

/** @param {number} status @param {Record<string, string>} [more] @returns {Answer} */
const refuse = (status, more = {}) => ({ status, headers: { ...HEADERS, ...more }, body: null });

/**
 * @param {string} address path of the request as it came, escapes and all, without the query
 * @returns {string | number} the file below the folder, or the status to refuse with
 */
function fileOf(/** @type {string} */ folder, address) {
  let plain;
  try {
    plain = decodeURIComponent(address);
  } catch {
    return 400;
  }
  if (plain.includes("\0")) return 403;
  const file = path.resolve(folder, `.${plain === "/" ? "/index.html" : plain}`);
  const inside = path.relative(folder, file);
  if (inside === "" || inside.startsWith("..") || path.isAbsolute(inside)) return 403;
  return file;
}

/**
 * @param {string} folder absolute; the only one that is ever read
 * @param {string} method
 * @param {string} address path of the request, without the query, beginning with a slash
 * @returns {Promise<Answer>}
 */
export async function answerFor(folder, method, address) {
  if (method !== "GET" && method !== "HEAD") return refuse(405, { allow: "GET, HEAD" });
  const file = fileOf(folder, address);
  if (typeof file === "number") return refuse(file);
  const kind = KINDS[path.extname(file).toLowerCase()];
  if (kind === undefined) return refuse(404);
  try {
    const bytes = new Uint8Array(await readFile(file));
    const headers = { ...HEADERS, "content-type": kind, "content-length": String(bytes.length) };
    return { status: 200, headers, body: method === "HEAD" ? null : bytes };
  } catch {
    return refuse(404);
  }
}

/** @returns {Answer} for a request that was meant for another machine's name (a name rebound to this address) */
export const misdirected = () => refuse(421);
