/** One note: Hz, and from when to when in seconds. */
type Note = { hertz: number; from: number; to: number };

/** Two falling pairs, the second lower: like nothing else on a ward that we know of, and no standard's own pattern. */
const NOTES: readonly Note[] = [
  { hertz: 784, from: 0, to: 0.16 },
  { hertz: 587, from: 0.2, to: 0.36 },
  { hertz: 698, from: 0.6, to: 0.76 },
  { hertz: 523, from: 0.8, to: 1.06 },
];

/** One round: the notes, then quiet until they come again. */
export const ROUND_SECONDS = 7;
const LOUDNESS = 0.4;
/** Each note swells and fades, so that it does not click. */
const EDGE_SECONDS = 0.02;

/**
 * One round of the call, as samples between −1 and 1: it begins and ends in silence, so it may be repeated without end.
 * @param perSecond how many samples a second
 */
export function callSamples(perSecond: number): Float32Array<ArrayBuffer> {
  const samples = new Float32Array(Math.round(ROUND_SECONDS * perSecond));
  for (const { hertz, from, to } of NOTES) {
    const [first, last] = [Math.ceil(from * perSecond), Math.floor(to * perSecond)];
    for (let index = first; index <= last; index += 1) {
      const at = index / perSecond;
      const edge = Math.max(0, Math.min(1, (at - from) / EDGE_SECONDS, (to - at) / EDGE_SECONDS));
      samples[index] = LOUDNESS * edge * Math.sin(2 * Math.PI * hertz * (at - from));
    }
  }
  return samples;
}

/** A node that plays the call, once or round after round. */
export function callNode(context: AudioContext, loop: boolean): AudioBufferSourceNode {
  const samples = callSamples(context.sampleRate);
  const buffer = context.createBuffer(1, samples.length, context.sampleRate);
  buffer.copyToChannel(samples, 0);
  const node = context.createBufferSource();
  node.buffer = buffer;
  node.loop = loop;
  node.connect(context.destination);
  return node;
}

/** Lets it be heard once. Called by a press, so no browser objects. */
export async function hearOnce(): Promise<void> {
  const context = new AudioContext();
  const node = callNode(context, false);
  node.addEventListener('ended', () => void context.close());
  await context.resume();
  node.start();
}
