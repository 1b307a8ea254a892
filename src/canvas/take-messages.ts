/** Lets the messages that wait be taken between two stretches of work. Not a timer: those are held back when they follow on one another. */
export const takeMessages = (): Promise<void> =>
  new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
