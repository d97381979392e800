/** How many times longer work takes here and now than it needs processor time. */
export function stretch(): number {
  const from = process.cpuUsage();
  const start = performance.now();
  let sum = 0;
  for (let ms = 0; ms < 100; ) {
    for (let i = 0; i < 100_000; i++) sum += Math.sqrt(i);
    const { user, system } = process.cpuUsage(from);
    ms = (user + system) / 1000;
  }
  if (!(sum > 0)) throw new RangeError("no work was done");
  return (performance.now() - start) / 100;
}
