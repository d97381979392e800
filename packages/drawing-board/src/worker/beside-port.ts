import { type Beside, type Share, shareDone } from "@dryfit/job";

/** Over the port: a share with its number, and what it came to. */
type Asked = Share & { readonly number: number };
type Answered = { readonly number: number } & ({ readonly done: unknown } | { readonly why: string });

/** Has shares done by the worker at the port's other end, in the order in which they are asked for. */
export function besideOver(port: MessagePort): Beside {
  const waiting = new Map<number, { done: (result: never) => void; failed: (error: Error) => void }>();
  let number = 0;
  port.onmessage = ({ data }: MessageEvent<Answered>) => {
    const ask = waiting.get(data.number);
    waiting.delete(data.number);
    if ("why" in data) ask?.failed(new Error(data.why));
    else ask?.done(data.done as never);
  };
  return (name, ...input) =>
    new Promise((done, failed) => {
      number++;
      waiting.set(number, { done, failed });
      const asked: Asked = { number, name, input };
      port.postMessage(asked);
    });
}

/** Does the shares that the worker at the port's other end asks for. */
export function help(port: MessagePort): void {
  const answer = (answered: Answered): void => port.postMessage(answered);
  port.onmessage = ({ data: { number, ...share } }: MessageEvent<Asked>) => {
    try {
      answer({ number, done: shareDone(share) });
    } catch (error) {
      answer({ number, why: error instanceof Error ? error.message : String(error) });
    }
  };
}
