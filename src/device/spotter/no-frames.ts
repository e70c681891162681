// Imported before TensorFlow.js, in a worker: it waits for the screen's next frame now and then, to keep a page alive. A worker holds
// nobody up, and a page that is not seen has no frames: the training would stand still until it is looked at again.
Object.defineProperty(globalThis, "requestAnimationFrame", { value: undefined, configurable: true });
