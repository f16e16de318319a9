import packageJson from '../../../package.json' with { type: 'json' };
import type { FileFacts } from '../../report/json.ts';

/** File facts of a program as it stands in the editor, saved or not. */
export async function fileFacts(path: string, text: string): Promise<FileFacts> {
  const bytes = new TextEncoder().encode(text);
  const digest = new Uint8Array(await globalThis.crypto.subtle.digest('SHA-256', bytes));
  const sha256 = [...digest].map(byte => byte.toString(16).padStart(2, '0')).join('');
  return { path, sha256, bytes: bytes.length, version: packageJson.version };
}
