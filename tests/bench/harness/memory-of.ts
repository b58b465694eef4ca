import { readFileSync } from 'node:fs';
import { freePort } from '@slackwater/tools/ports';

/** What a process holds, MB (10⁶ bytes): objects in use after a full collection, and memory of the machine. */
export type Held = { heapMb: number; residentMb: number };

/** Settings that let a Node process be looked into, and how to look once it runs. */
export async function inspectable() {
  const port = await freePort();
  return {
    settings: { NODE_OPTIONS: `--inspect=127.0.0.1:${port}` },
    look: (pid: number) => openInspector(port, pid),
  };
}

/** Speaks to the inspector of a process (the protocol of Chrome's developer tools, which Node's `--inspect` serves). */
async function openInspector(port: number, pid: number) {
  const [target] = (await (await fetch(`http://127.0.0.1:${port}/json/list`)).json()) as {
    webSocketDebuggerUrl: string;
  }[];
  const socket = new WebSocket(target!.webSocketDebuggerUrl);
  await new Promise<void>((resolve, reject) => {
    socket.onopen = () => resolve();
    socket.onerror = () => reject(new Error(`The inspector on port ${port} cannot be reached.`));
  });
  const waiting = new Map<number, (result: { usedSize: number }) => void>();
  socket.onmessage = ({ data }) => {
    const { id, result } = JSON.parse(String(data));
    waiting.get(id)?.(result);
    waiting.delete(id);
  };
  let asked = 0;
  const ask = (method: string) =>
    new Promise<{ usedSize: number }>((resolve) => {
      asked += 1;
      waiting.set(asked, resolve);
      socket.send(JSON.stringify({ id: asked, method }));
    });
  return {
    async held(): Promise<Held> {
      // what the first collection finalises, the second frees
      await ask('HeapProfiler.collectGarbage');
      await ask('HeapProfiler.collectGarbage');
      const { usedSize } = await ask('Runtime.getHeapUsage');
      return { heapMb: usedSize / 1e6, residentMb: residentMb(pid) };
    },
    close: () => socket.close(),
  };
}

/** `VmRSS` of `/proc`, kB of 1,024 bytes; not a number where the system has none. */
function residentMb(pid: number): number {
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8');
    return (Number(/^VmRSS:\s+(\d+) kB/m.exec(status)?.[1]) * 1024) / 1e6;
  } catch {
    return Number.NaN;
  }
}
