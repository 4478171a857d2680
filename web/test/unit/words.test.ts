// The page speaks two languages; nothing it says may be written anywhere but in the dictionaries.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { en } from '../../src/text/en';
import { es } from '../../src/text/es';

const source = fileURLToPath(new URL('../../src/', import.meta.url));

const walk = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true }).flatMap((e) =>
    e.isDirectory() ? walk(join(folder, e.name)) : e.name.endsWith('.tsx') ? [join(folder, e.name)] : [],
  );

const spoken = new Set([
  'aria-label',
  'title',
  'placeholder',
  'alt',
  'label',
  'hint',
  'sub',
  'empty',
  'what',
]);
const hasWords = (text: string) => /\p{L}{2,}/u.test(text);
/** The program's own name, and keys as they stand on a keyboard. */
const proper = new Set(['Pumpwright']);

/** Texts in markup and in spoken attributes of one file. */
function hardCoded(path: string, text: string): string[] {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.ES2020, true, ts.ScriptKind.TSX);
  const found: string[] = [];
  const visit = (node: ts.Node) => {
    if (ts.isJsxText(node) && hasWords(node.text)) found.push(node.text.trim());
    if (ts.isJsxAttribute(node) && spoken.has(node.name.getText(file))) {
      const value = node.initializer;
      if (value && ts.isStringLiteral(value) && hasWords(value.text) && !proper.has(value.text))
        found.push(value.text);
    }
    if (
      ts.isJsxExpression(node) &&
      node.expression &&
      ts.isStringLiteral(node.expression) &&
      node.parent &&
      ts.isJsxElement(node.parent) &&
      hasWords(node.expression.text)
    )
      found.push(node.expression.text);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

describe('the words of the page', () => {
  it('are there in both languages, key by key', () => {
    expect(Object.keys(es).sort()).toEqual(Object.keys(en).sort());
    for (const [key, words] of [...Object.entries(en), ...Object.entries(es)])
      expect(words.trim(), key).not.toBe('');
  });

  it('take the same values in both languages', () => {
    const values = (text: string) => (text.match(/\{\w+\}/g) ?? []).sort().join();
    for (const key of Object.keys(en) as (keyof typeof en)[])
      expect(values(es[key]), key).toBe(values(en[key]));
  });

  it('stand in no other file', () => {
    const found = walk(source).flatMap((path) =>
      hardCoded(path, readFileSync(path, 'utf8')).map((text) => `${path.slice(source.length)}: ${text}`),
    );
    expect(found).toEqual([]);
  });

  it('would be found if they did', () => {
    expect(hardCoded('x.tsx', 'const a = <p>Hello there</p>;')).toEqual(['Hello there']);
    expect(hardCoded('x.tsx', 'const a = <input placeholder="Type here" />;')).toEqual(['Type here']);
    expect(hardCoded('x.tsx', "const a = <p>{t('x')} · {a}</p>;")).toEqual([]);
  });
});
