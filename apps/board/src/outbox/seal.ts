/** Text under AES-GCM: unreadable and unchangeable without the key. */
export type Sealed = { iv: Uint8Array<ArrayBuffer>; sealed: ArrayBuffer };

/** What a sealed text belongs to: opened as anything else, it does not open. */
export type Binding = { accountId: string; device: string; format: number; what: string };

const IV_BYTES = 12;
const text = new TextEncoder();

const boundTo = ({ accountId, device, format, what }: Binding) =>
  text.encode(JSON.stringify([accountId, device, format, what]));

/** The key as the server handed it out, so that no script can read it back. @param base64 256 bits */
export const importKey = (base64: string): Promise<CryptoKey> => {
  const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
  return crypto.subtle.importKey('raw', bytes, 'AES-GCM', false, ['encrypt', 'decrypt']);
};

/** Seals a value that JSON can say; each time under a fresh initialisation vector. */
export const seal = async (key: CryptoKey, binding: Binding, value: unknown): Promise<Sealed> => {
  const iv = crypto.getRandomValues(new Uint8Array(IV_BYTES));
  const algorithm = { name: 'AES-GCM', iv, additionalData: boundTo(binding) };
  return { iv, sealed: await crypto.subtle.encrypt(algorithm, key, text.encode(JSON.stringify(value))) };
};

/** @throws when the key, the binding or a single bit is another */
export const unseal = async (key: CryptoKey, binding: Binding, { iv, sealed }: Sealed): Promise<unknown> => {
  const algorithm = { name: 'AES-GCM', iv, additionalData: boundTo(binding) };
  return JSON.parse(new TextDecoder().decode(await crypto.subtle.decrypt(algorithm, key, sealed)));
};
