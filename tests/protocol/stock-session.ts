import assert from 'node:assert/strict';
import { Session } from './session.ts';

/** What the hover on a line says. */
export async function hoverAt(session: Session, uri: string, line: number): Promise<string> {
  const hover = await session.request<{ contents: { value: string } } | null>('textDocument/hover', {
    textDocument: { uri },
    position: { line, character: 1 },
  });
  return hover?.contents.value ?? '';
}

/** Waits until the hover on a line says what is wanted: stock comes piece by piece. */
export async function hoverSays(session: Session, uri: string, line: number, wanted: RegExp): Promise<void> {
  let said = '';
  for (const end = Date.now() + 30_000; Date.now() < end; ) {
    said = await hoverAt(session, uri, line);
    if (wanted.test(said)) return;
    await new Promise(later => setTimeout(later, 20));
  }
  assert.match(said, wanted);
}

/** Runs with files beside the program and every hint on; the server must not have said anything was wrong. */
export async function withFiles(files: Record<string, string>, run: (session: Session) => Promise<void>) {
  const session = await Session.start(files);
  session.settings = { hints: { level: 'every' } };
  try {
    await run(session);
    assert.deepEqual(session.errors, []);
  } finally {
    await session.close();
  }
}
