/** Processor time of a run, in ms: a busy machine must not decide the verdict. */
export function processorTime(run: () => void): number {
  const before = process.cpuUsage();
  run();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}
