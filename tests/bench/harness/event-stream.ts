import { get } from 'node:http';

const ID = /^id: (\d+)$/m;

/**
 * Opens a stream of server-sent events; resolves once it is open.
 * @param onRows told the position (`id`) and the bytes of every event that has one
 * @returns closes it
 */
export function openEventStream(
  url: URL,
  headers: Readonly<Record<string, string>>,
  onRows: (position: number, bytes: number) => void,
): Promise<() => void> {
  return new Promise((resolve, reject) => {
    const request = get(url, { headers, agent: false }, (response) => {
      if (response.statusCode !== 200) {
        reject(new Error(`The stream was answered ${response.statusCode}.`));
        return;
      }
      let text = '';
      response.on('data', (chunk: Buffer) => {
        text += chunk.toString('latin1');
        for (let end = text.indexOf('\n\n'); end >= 0; end = text.indexOf('\n\n')) {
          const event = text.slice(0, end + 2);
          text = text.slice(end + 2);
          const id = ID.exec(event);
          if (id) onRows(Number(id[1]), event.length);
        }
      });
      resolve(() => request.destroy());
    });
    request.on('error', reject);
  });
}
