/** The server of the window's files: this machine only, one folder only, reading only, the strict policy on every answer. */
import * as fs from "node:fs";
import * as http from "node:http";
import * as net from "node:net";
import * as os from "node:os";
import * as path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { CONTENT_SECURITY_POLICY } from "../../../electron/web-server/page-files.mjs";
import { serve } from "../../../electron/web-server/serve.mjs";
import type { Serving } from "../../../electron/web-server/serve.mjs";

interface Answer {
  readonly status: number;
  readonly headers: http.IncomingHttpHeaders;
  readonly body: string;
}

let top: string;
let serving: Serving;

beforeAll(async () => {
  top = fs.mkdtempSync(path.join(os.tmpdir(), "loomwright-"));
  fs.mkdirSync(path.join(top, "window"));
  fs.writeFileSync(path.join(top, "window/index.html"), "<p>page</p>");
  fs.writeFileSync(path.join(top, "window/a.js"), "1;");
  fs.writeFileSync(path.join(top, "window/secret.pem"), "kept");
  fs.writeFileSync(path.join(top, "outside.html"), "outside");
  serving = await serve(path.join(top, "window"), 0);
});

afterAll(async () => {
  await serving.close();
  fs.rmSync(top, { recursive: true, force: true });
});

/** Sends the path as it is given: fetch would tidy it up first. */
function ask(address: string, options: http.RequestOptions = {}): Promise<Answer> {
  const { port } = new URL(serving.url);
  return new Promise((resolve, reject) => {
    const request = http.request({ host: "127.0.0.1", port, path: address, ...options }, (response) => {
      let body = "";
      response.on("data", (chunk: Buffer) => (body += chunk.toString()));
      response.on("end", () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body }));
    });
    request.on("error", reject);
    request.end();
  });
}

describe("the server of the window", () => {
  it("gives the page and its files with their kinds", async () => {
    const page = await ask("/?demo=x");
    expect(page).toMatchObject({ status: 200, body: "<p>page</p>" });
    expect(page.headers["content-type"]).toBe("text/html; charset=utf-8");
    expect((await ask("/a.js")).headers["content-type"]).toBe("text/javascript; charset=utf-8");
  });

  it.each([
    ["a path out of its folder", "/../outside.html", 403],
    ["the same, escaped", "/..%2foutside.html", 403],
    ["the same, by backward slash", "/..%5coutside.html", 403],
    ["a NUL", "/index.html%00.js", 403],
    ["an escape that is none", "/%E0%A4%A", 400],
    ["the folder itself", "/.", 403],
    ["a kind that no window needs", "/secret.pem", 404],
    ["what is not there", "/nothing.js", 404],
  ])("refuses %s", async (_what, address, status) => {
    const answer = await ask(address);
    expect(answer.status).toBe(status);
    expect(answer.body).toBe("");
    expect(answer.headers["content-security-policy"]).toBe(CONTENT_SECURITY_POLICY);
  });

  it.each(["POST", "PUT", "DELETE", "OPTIONS"])("takes nothing: %s", async (method) => {
    const answer = await ask("/", { method });
    expect(answer.status).toBe(405);
    expect(answer.headers["content-security-policy"]).toBe(CONTENT_SECURITY_POLICY);
  });

  it("answers only to this machine's own name, so that no foreign name can be bound to it", async () => {
    expect((await ask("/", { headers: { host: "example.org" } })).status).toBe(421);
    const { port } = new URL(serving.url);
    expect((await ask("/", { headers: { host: `localhost:${port}` } })).status).toBe(200);
  });

  it("listens on the loopback address alone", () => {
    expect(new URL(serving.url).hostname).toBe("127.0.0.1");
  });

  it("takes the next port when the wanted one is taken", async () => {
    const other = net.createServer();
    await new Promise<void>((resolve) => other.listen(0, "127.0.0.1", resolve));
    const taken = (other.address() as net.AddressInfo).port;
    const second = await serve(path.join(top, "window"), taken);
    expect(Number(new URL(second.url).port)).not.toBe(taken);
    expect((await fetch(second.url)).status).toBe(200);
    await second.close();
    other.close();
  });

  it("allows neither inline scripts nor anything from outside (Content Security Policy Level 3)", () => {
    expect(CONTENT_SECURITY_POLICY).toContain("default-src 'none'");
    expect(CONTENT_SECURITY_POLICY).not.toMatch(/unsafe|https?:|\*/);
  });
});
