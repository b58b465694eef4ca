/** What browsers offer that read codes themselves; the types of TypeScript do not know it yet. */
type Detector = { detect(source: HTMLVideoElement): Promise<readonly { rawValue: string }[]> };
type DetectorClass = new (options: { formats: readonly string[] }) => Detector;

const FORMATS = ['data_matrix', 'code_128', 'qr_code', 'ean_13', 'ean_8', 'itf', 'upc_a'];
const LOOK_EVERY_MS = 200;

const detectorClass = (): DetectorClass | null =>
  (globalThis as { BarcodeDetector?: DetectorClass }).BarcodeDetector ?? null;

/** Whether this browser reads codes with its camera. */
export const hasCamera = (): boolean => detectorClass() !== null && navigator.mediaDevices !== undefined;

/**
 * Looks through the camera until a code is seen or `signal` ends it; the camera is off afterwards, whatever happens.
 * @param video shows what the camera sees
 * @throws DOMException when the person or the machine refuses the camera
 */
export const lookForCode = async (video: HTMLVideoElement, signal: AbortSignal): Promise<string | null> => {
  const Detector = detectorClass();
  if (Detector === null) return null;
  const stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } });
  try {
    video.srcObject = stream;
    await video.play();
    const detector = new Detector({ formats: FORMATS });
    while (!signal.aborted) {
      const [code] = await detector.detect(video);
      if (code) return code.rawValue;
      await new Promise((resolve) => setTimeout(resolve, LOOK_EVERY_MS));
    }
    return null;
  } finally {
    for (const track of stream.getTracks()) track.stop();
    video.srcObject = null;
  }
};
