/**
 * Which blocks of the sources a test file runs. Each block of a copy marks itself in one array when it is entered; a
 * set-up file hands the array out when the test file is through.
 */
import ts from "typescript";

/** Where a block begins in its file, and its number among all. */
export interface Block {
  readonly file: string;
  readonly start: number;
  readonly end: number;
}

/** The text with its marks; the blocks are added to `blocks`, their numbers being their places there. */
export function marked(file: string, text: string, blocks: Block[]): string {
  const kind = file.endsWith("x") ? ts.ScriptKind.TSX : ts.ScriptKind.TS;
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.ES2023, true, kind);
  const puts: [at: number, text: string][] = [];
  const mark = (node: ts.Node): string => {
    blocks.push({ file, start: node.pos, end: node.end });
    // A process that a test starts has no set-up file.
    return `((globalThis as any).__entered ??= [])[${blocks.length - 1}] = 1`;
  };
  puts.push([source.getFullText().length, `\n;${mark(source)};\n`]);
  const visit = (node: ts.Node): void => {
    if (ts.isBlock(node) || ts.isCaseOrDefaultClause(node)) {
      const at = ts.isBlock(node) ? node.getStart(source) + 1 : clauseStart(node, source);
      puts.push([at, ` ${mark(node)}; `]);
    } else if (ts.isArrowFunction(node) && !ts.isBlock(node.body)) {
      puts.push([node.body.getStart(source), `(${mark(node.body)}, `], [node.body.end, ")"]);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  puts.sort((a, b) => a[0] - b[0]);
  let out = "";
  let from = 0;
  for (const [at, put] of puts) {
    out += text.slice(from, at) + put;
    from = at;
  }
  return out + text.slice(from);
}

function clauseStart(node: ts.CaseOrDefaultClause, source: ts.SourceFile): number {
  const from = ts.isCaseClause(node) ? node.expression.end : node.getStart(source);
  return source.text.indexOf(":", from) + 1;
}

/** The innermost block round a place: its number. */
export function blockAt(blocks: readonly Block[], file: string, at: number): number {
  let best = -1;
  for (const [i, block] of blocks.entries()) {
    if (block.file !== file || at < block.start || at > block.end) continue;
    if (best < 0 || block.end - block.start < blocks[best]!.end - blocks[best]!.start) best = i;
  }
  return best;
}

/** What the set-up file of the covered run says. */
export const SETUP = `
import { appendFileSync } from "node:fs";
import { afterAll, expect } from "vitest";
const entered = ((globalThis as any).__entered ??= new Uint8Array(1 << 20));
afterAll(() => {
  const blocks: number[] = [];
  for (let i = 0; i < entered.length; i++) if (entered[i] === 1) blocks.push(i);
  appendFileSync(process.env.ENTERED!, JSON.stringify({ test: expect.getState().testPath, blocks }) + "\\n");
});
`;
