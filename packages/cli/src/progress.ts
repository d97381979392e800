/** Tells on a terminal's last line which stage runs; silent in pipes and scripts. */
export function progress(wanted: boolean): { show: (stage: string) => void; clear: () => void } {
  const terminal = wanted && process.stderr.isTTY === true;
  return {
    show: (stage) => {
      if (terminal) process.stderr.write(`\r\x1b[2K${stage} …`);
    },
    clear: () => {
      if (terminal) process.stderr.write("\r\x1b[2K");
    },
  };
}
