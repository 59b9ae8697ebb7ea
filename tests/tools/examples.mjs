import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { publicNames } from './publicNames.mjs';

/** What an example may use without saying where it is from, beside the public names. */
const FIXTURE = 'sample';

/** Every example of a public name, ready to be compiled or run. */
export function examplesOf(names = publicNames()) {
  return names.flatMap((of) => of.examples.map((text, i) => exampleOf(names, of, text, i)));
}

/**
 * An example of a doc comment: statements, each with the claim behind it. Names it does not declare are imported, from the entry of the
 * name it stands at where that has them.
 */
export function exampleOf(names, { name, entry, place }, text, index = 0) {
  const source = ts.createSourceFile('example.ts', text, ts.ScriptTarget.ES2022, true, ts.ScriptKind.TS);
  const used = identifiersOf(source);
  const imports = new Map();
  for (const word of used) {
    const found = names.filter((one) => one.name === word && one.kind !== 'type');
    const from = found.find((one) => one.entry === entry) ?? found[0];
    if (from !== undefined) imports.set(from.entry, [...(imports.get(from.entry) ?? []), word]);
  }
  return {
    name,
    place: index === 0 ? place : `${place} (example ${index + 1})`,
    text,
    usesIt: used.has(name),
    usesFixture: used.has(FIXTURE),
    imports: [...imports].map(([from, words]) => ({ from, words })),
    statements: source.statements.map((statement, i) => ({
      code: statement.getText(source),
      claim: claimAfter(text, statement.end, source.statements[i + 1]?.getStart(source)),
      value: claimedOf(statement, source),
    })),
  };
}

/** The comment behind a statement, over as many lines as it goes. */
function claimAfter(text, end, next = text.length) {
  return text
    .slice(end, next)
    .split('\n')
    .map((line) => /^;?\s*\/\/ ?(.*)$/.exec(line)?.[1].trim() ?? '')
    .join(' ')
    .trim();
}

/** What a claim behind a statement is about: an expression's value, or the one name it declares. */
function claimedOf(statement, source) {
  if (ts.isExpressionStatement(statement)) return statement.expression.getText(source);
  if (ts.isVariableStatement(statement)) {
    const [{ name }, ...more] = statement.declarationList.declarations;
    if (more.length === 0 && ts.isIdentifier(name)) return name.text;
  }
  return undefined;
}

function identifiersOf(source) {
  const words = new Set();
  const declared = new Set();
  const visit = (node) => {
    const { parent } = node;
    if (ts.isIdentifier(node)) {
      const isMember = ts.isPropertyAccessExpression(parent) && parent.name === node;
      const isKey =
        (ts.isPropertyAssignment(parent) && parent.name === node) ||
        (ts.isBindingElement(parent) && parent.propertyName === node);
      const declares = ts.isVariableDeclaration(parent) || ts.isBindingElement(parent) || ts.isParameter(parent);
      if (declares && parent.name === node) declared.add(node.text);
      else if (!isMember && !isKey) words.add(node.text);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return new Set([...words].filter((word) => !declared.has(word)));
}

/** The example as a module that a developer could write. */
function moduleOf({ text, imports, usesFixture }) {
  return [
    ...imports.map(({ from, words }) => `import { ${words.join(', ')} } from '${from}';`),
    ...(usesFixture ? [`import { ${FIXTURE} } from './exampleSample.mjs';`] : []),
    'export {};',
    text,
  ].join('\n');
}

/** What the compiler has against examples, as consumers of the built package compile them. */
export function typeFaultsOf(examples) {
  const folder = `${process.cwd()}/tests/tools/`;
  const files = new Map(
    examples.map((example, i) => [`${folder}example${i}.ts`, { example, text: moduleOf(example) }]),
  );
  const options = {
    strict: true,
    noEmit: true,
    skipLibCheck: true,
    exactOptionalPropertyTypes: true,
    target: ts.ScriptTarget.ES2022,
    module: ts.ModuleKind.NodeNext,
    types: ['node'],
  };
  const host = ts.createCompilerHost(options);
  const { fileExists, readFile, getSourceFile } = host;
  host.fileExists = (file) => files.has(file) || fileExists(file);
  host.readFile = (file) => files.get(file)?.text ?? readFile(file);
  host.getSourceFile = (file, version) =>
    files.has(file) ? ts.createSourceFile(file, files.get(file).text, version, true) : getSourceFile(file, version);
  const program = ts.createProgram([...files.keys()], options, host);
  return ts.getPreEmitDiagnostics(program).map(({ file, messageText }) => {
    const of = files.get(file?.fileName)?.example;
    return `${of?.place ?? file?.fileName}: ${of?.name ?? ''}: ${ts.flattenDiagnosticMessageText(messageText, ' ')}`;
  });
}

/** Runs examples on the built package, in a process of their own, and tells what is wrong with each. */
export function run(examples) {
  const script = fileURLToPath(new URL('runExamples.mjs', import.meta.url));
  return JSON.parse(execFileSync(process.execPath, [script], { input: JSON.stringify(examples), encoding: 'utf8' }));
}
