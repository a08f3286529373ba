/** The worker's entry: hands messages to the engine. A MessageChannel is the quickest pause that lets messages in. */
import { AnalysisEngine } from "./engine.ts";
import type { FromWorker, ToWorker } from "./protocol.ts";

const scope = self as unknown as {
  postMessage(message: FromWorker): void;
  onmessage: ((event: MessageEvent<ToWorker>) => void) | null;
};

const channel = new MessageChannel();
const waiting: (() => void)[] = [];
channel.port1.onmessage = () => waiting.shift()?.();
const pause = (): Promise<void> =>
  new Promise((resolve) => {
    waiting.push(resolve);
    channel.port2.postMessage(0);
  });

const engine = new AnalysisEngine((message) => scope.postMessage(message), pause);
scope.onmessage = ({ data }) => void engine.hear(data);
