/** Lets a worker hear its messages (a stop among them) in the middle of long work: promises alone never let them through. */
export function createBreather(everyMs = HEAR_EVERY_MS): () => Promise<void> {
  let heardMs = performance.now();
  return async () => {
    if (performance.now() - heardMs < everyMs) return;
    await nextTask();
    heardMs = performance.now();
  };
}

/** A stop must be heard within 200 ms; a frame is followed in some 10 to 50. */
const HEAR_EVERY_MS = 40;

/** A message to oneself comes after those that wait; a timer would wait 4 ms longer each time. */
function nextTask(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
}
