/** A text with the place it came from. */
export interface JobText {
  path: string;
  text: string;
}

/** The files that a review stands on beside the program. */
export interface JobFiles {
  sheet?: JobText;
  crib?: JobText;
  /** The person's own crib, from the editor's settings. */
  personal_crib?: JobText;
  record?: JobText;
}

/** Where files are: paths for the command line, URIs for the editor. */
export interface JobHost {
  /** Undefined when there is no such file or it cannot be read. */
  read(at: string): Promise<Uint8Array | undefined>;
  parent(at: string): string | undefined;
  join(folder: string, name: string): string;
  /** Name of a file without its folder. */
  name(at: string): string;
  /** True where the upward search for a crib ends: the workspace, a repository, home, the root. */
  isTop(folder: string): Promise<boolean>;
}

export interface JobChoice {
  /** Sheet named by the person instead of the one beside the program. */
  sheet?: string;
  crib?: string;
  personal_crib?: string;
}

const LEVELS = 40;

/** The setup sheet's name for a program: `bracket.nc` -> `bracket.setup.json`. */
export function sheetName(programName: string): string {
  const dot = programName.lastIndexOf('.');
  return `${dot > 0 ? programName.slice(0, dot) : programName}.setup.json`;
}

/** Finds sheet and crib of a program: the sheet beside it, the crib in the nearest folder upwards. */
export async function findJobFiles(
  host: JobHost,
  program: string,
  choice: JobChoice = {},
): Promise<JobFiles> {
  const folder = host.parent(program);
  const sheet =
    choice.sheet !== undefined
      ? await readText(host, choice.sheet)
      : folder === undefined
        ? undefined
        : await readText(host, host.join(folder, sheetName(host.name(program))));
  const crib =
    choice.crib !== undefined
      ? await readText(host, choice.crib)
      : await findUpwards(host, folder, 'crib.json');
  const personal = choice.personal_crib ? await readText(host, choice.personal_crib) : undefined;
  return {
    ...(sheet ? { sheet } : {}),
    ...(crib ? { crib } : {}),
    ...(personal ? { personal_crib: personal } : {}),
  };
}

async function findUpwards(
  host: JobHost,
  from: string | undefined,
  name: string,
): Promise<JobText | undefined> {
  let folder = from;
  for (let level = 0; folder !== undefined && level < LEVELS; level++) {
    const found = await readText(host, host.join(folder, name));
    if (found) return found;
    if (await host.isTop(folder)) return undefined;
    folder = host.parent(folder);
  }
  return undefined;
}

async function readText(host: JobHost, path: string): Promise<JobText | undefined> {
  const bytes = await host.read(path);
  return bytes && { path, text: new TextDecoder('utf-8').decode(bytes) };
}
