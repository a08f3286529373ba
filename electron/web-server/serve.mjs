/** Serves the built window on 127.0.0.1, and on nothing else: for a browser where there is no desktop shell. */
import * as http from "node:http";
import { answerFor, misdirected } from "./page-files.mjs";

const ADDRESS = "127.0.0.1";

/**
 * @typedef {object} Serving
 * @property {string} url
 * @property {() => Promise<void>} close
 */

/** @param {http.Server} server @param {number} port @returns {Promise<void>} */
function listen(server, port) {
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, ADDRESS, () => {
      server.off("error", reject);
      resolve();
    });
  });
}

/** @param {unknown} problem */
const taken = (problem) => problem instanceof Error && "code" in problem && problem.code === "EADDRINUSE";

/** How many ports above the wanted one are tried before the system may choose. */
const TRIES = 10;

/**
 * @param {string} folder the built window
 * @param {number} wanted port; 0 = any. A taken one gives the next that is free.
 * @returns {Promise<Serving>}
 */
export async function serve(folder, wanted) {
  const server = http.createServer((request, response) => {
    const [address = "/"] = (request.url ?? "/").split("?");
    const named = [`${ADDRESS}:${port}`, `localhost:${port}`].includes(request.headers.host ?? "");
    const answering = named ? answerFor(folder, request.method ?? "", address) : Promise.resolve(misdirected());
    void answering.then(({ status, headers, body }) => {
      response.writeHead(status, headers);
      response.end(body);
    });
  });
  for (let port = wanted; ; port = wanted === 0 || port >= wanted + TRIES ? 0 : port + 1) {
    try {
      await listen(server, port);
      break;
    } catch (problem) {
      if (!taken(problem) || port === 0) throw problem;
    }
  }
  const place = server.address();
  const port = typeof place === "object" && place !== null ? place.port : wanted;
  return {
    url: `http://${ADDRESS}:${port}/`,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}
