const TELL_AFTER_MS = 1500;

/** Says what is being done once it has taken a while, and how long it took. */
export async function withProgress<T>(what: string, work: () => Promise<T>): Promise<T> {
  const begun = performance.now();
  let told = false;
  const timer = setTimeout(() => {
    told = true;
    console.log(`${what} …`);
  }, TELL_AFTER_MS);
  try {
    const result = await work();
    if (told) console.log(`${what}: ${((performance.now() - begun) / 1000).toFixed(1)} s`);
    return result;
  } finally {
    clearTimeout(timer);
  }
}
