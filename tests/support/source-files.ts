import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { projectRoot } from '@slackwater/tools/paths';

export type SourceFile = { path: string; text: string; isTest: boolean };

const NOT_OURS = new Set(['node_modules', 'dist', 'generated', '.git', '.data']);

/** Every TypeScript file under a folder of the project, by its path from the root. */
export function sourceFiles(folder: string): SourceFile[] {
  return readdirSync(join(projectRoot, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = join(projectRoot, folder, entry.name);
    if (entry.isDirectory()) return NOT_OURS.has(entry.name) ? [] : sourceFiles(relative(projectRoot, path));
    if (!/\.(ts|tsx|mjs)$/.test(entry.name)) return [];
    const name = relative(projectRoot, path);
    return [{ path: name, text: readFileSync(path, 'utf8'), isTest: /\.test\.tsx?$/.test(name) }];
  });
}

export type Import = { from: string; onlyTypes: boolean };

const STATEMENT =
  /(?:^|\n)\s*(import|export)\s+(type\s)?[^;'"]*?from\s+['"]([^'"]+)['"]|import\(\s*['"]([^'"]+)['"]\s*\)/g;
const BARE = /(?:^|\n)\s*import\s+['"]([^'"]+)['"]/g;

/** What a file imports, statically or on demand. */
export function importsOf({ text }: SourceFile): Import[] {
  const code = withoutComments(text);
  const found = [...code.matchAll(STATEMENT)].map((match) => ({
    from: match[3] ?? match[4] ?? '',
    onlyTypes: match[2] !== undefined,
  }));
  const bare = [...code.matchAll(BARE)].map((match) => ({ from: match[1] ?? '', onlyTypes: false }));
  return [...found, ...bare];
}

/** The code without its comments, so that a sentence about a rule is not taken for a breach of it. */
export const withoutComments = (text: string): string =>
  text.replaceAll(/\/\*[\s\S]*?\*\//g, '').replaceAll(/(^|[^:'"`])\/\/.*$/gm, '$1');
