import type { Connection } from 'vscode-languageserver';
import type { Severity } from '../review/finding.ts';
import { SEVERITIES } from '../review/finding.ts';
import type { HintLevel } from './hint-lines.ts';

/** The settings that the server uses, checked. */
export interface Settings {
  level: HintLevel;
  units: 'program' | 'inch' | 'mm';
  crib: string;
  findings: Readonly<Record<string, Severity | 'off'>>;
  maxProblems: number;
}

export const DEFAULTS: Settings = {
  level: 'changes',
  units: 'program',
  crib: '',
  findings: {},
  maxProblems: 100,
};

/** Settings by document, asked for once and kept until they change. */
export class SettingsStore {
  private readonly held = new Map<string, Promise<Settings>>();

  constructor(
    private readonly connection: Connection,
    public canAsk: boolean,
  ) {}

  of(uri: string): Promise<Settings> {
    if (!this.canAsk) return Promise.resolve(DEFAULTS);
    let settings = this.held.get(uri);
    if (!settings) {
      settings = this.connection.workspace
        .getConfiguration({ scopeUri: uri, section: 'tapeproof' })
        .then(checked);
      this.held.set(uri, settings);
    }
    return settings;
  }

  forget(): void {
    this.held.clear();
  }
}

function checked(value: unknown): Settings {
  const raw = isRecord(value) ? value : {};
  const hints = isRecord(raw.hints) ? raw.hints : {};
  const most = Number(raw.maxProblems);
  return {
    level: hints.level === 'off' || hints.level === 'every' ? hints.level : 'changes',
    units: raw.units === 'inch' || raw.units === 'mm' ? raw.units : 'program',
    crib: typeof raw.crib === 'string' ? raw.crib : '',
    findings: isRecord(raw.findings) ? severities(raw.findings) : {},
    maxProblems: Number.isInteger(most) && most >= 1 && most <= 500 ? most : DEFAULTS.maxProblems,
  };
}

function severities(raw: Record<string, unknown>): Record<string, Severity | 'off'> {
  const kept = Object.entries(raw).filter(
    ([, value]) => value === 'off' || SEVERITIES.includes(value as Severity),
  );
  return Object.fromEntries(kept) as Record<string, Severity | 'off'>;
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
