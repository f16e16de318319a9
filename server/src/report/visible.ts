const HELD: Record<string, string> = { '\n': '\n', '\t': '\t' };

/** Control characters and turns of direction as visible marks, so that nothing of a program reaches a terminal or page raw. */
export function visible(text: string): string {
  return text.replace(/[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/g, character => {
    const held = HELD[character];
    if (held) return held;
    const code = character.charCodeAt(0);
    return code < 0x20 ? String.fromCharCode(0x2400 + code) : `\\u${code.toString(16).padStart(4, '0')}`;
  });
}
