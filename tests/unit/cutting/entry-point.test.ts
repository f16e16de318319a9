import assert from 'node:assert/strict';
import vm from 'node:vm';
import { build, type PluginBuild } from 'esbuild';

async function bundled(contents: string, format: 'esm' | 'iife'): Promise<string> {
  const result = await build({
    stdin: { contents, resolveDir: 'server/src/cutting' },
    bundle: true,
    write: false,
    platform: 'browser',
    format,
    globalName: 'cutting',
    logLevel: 'silent',
  });
  return result.outputFiles[0]!.text;
}

describe('entry point of the cutting library', () => {
  it('runs where there is nothing but the language itself', async () => {
    const script = await bundled("export * from './index.ts'", 'iife');
    const speed: unknown = vm.runInNewContext(
      `${script}; cutting.formatQuantity('surface_speed_m_min', cutting.surfaceSpeed({ diameter_mm: 12.7, spindle_rpm: 8000 }), 'inch')`,
    );
    assert.equal(speed, '1047 sfm');
    assert.doesNotMatch(script, /\brequire\(|\bprocess\.|^import /m);
  });

  it('one function alone takes a few kilobytes with it, not the tables', async () => {
    const whole = await bundled("export * from './index.ts'", 'esm');
    const only = { name: 'only', setup: (b: PluginBuild) => shipped(b, whole) };
    const contents = "export { surfaceSpeed } from 'shipped'";
    const result = await build({
      stdin: { contents },
      bundle: true,
      write: false,
      format: 'esm',
      plugins: [only],
    });
    const one = result.outputFiles[0]!.text;
    assert.ok(one.length < whole.length / 30, `${one.length} of ${whole.length}`);
    assert.doesNotMatch(one, /UNFOLDINGS|QUANTITIES|FORMAT_KINDS/);
  });
});

/** The library as it is packed: one file. */
function shipped(b: PluginBuild, contents: string): void {
  b.onResolve({ filter: /^shipped$/ }, () => ({ path: 'shipped', namespace: 'shipped' }));
  b.onLoad({ filter: /.*/, namespace: 'shipped' }, () => ({ contents, loader: 'js' }));
}
