export declare const mostBytes: number;
export declare function pack(folder: string): { vsix: string; tarball: string };
