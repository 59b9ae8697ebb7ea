import { readFileSync } from 'node:fs';
import { relative, resolve } from 'node:path';
import ts from 'typescript';

const { name: PACKAGE, exports: EXPORTS } = JSON.parse(readFileSync('package.json', 'utf8'));

/** The package's entries: the name they are imported by, and the source they are built from. */
const SOURCES_OF_ENTRIES = Object.entries(EXPORTS)
  .filter(([, target]) => typeof target === 'object')
  .map(([path, { types }]) => ({
    entry: path.replace('.', PACKAGE),
    source: types.replace('./dist/', 'src/').replace('.d.ts', '.ts'),
  }));

/**
 * Every public name with what its doc comment says, through the compiler: names marked `@internal` are none. One that stands in two
 * entries is given once, by the first.
 */
export function publicNames() {
  const { config } = ts.readConfigFile('tsconfig.json', ts.sys.readFile);
  const { options } = ts.parseJsonConfigFileContent(config, ts.sys, '.');
  const program = ts.createProgram(
    SOURCES_OF_ENTRIES.map(({ source }) => source),
    options,
  );
  const checker = program.getTypeChecker();
  const names = new Map();
  for (const { entry, source } of SOURCES_OF_ENTRIES) {
    const module = checker.getSymbolAtLocation(program.getSourceFile(source));
    for (const exported of checker.getExportsOfModule(module)) {
      const symbol = exported.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(exported) : exported;
      const tags = symbol.getJsDocTags(checker);
      if (names.has(symbol) || tags.some((tag) => tag.name === 'internal')) continue;
      const [declared] = symbol.declarations;
      const file = declared.getSourceFile();
      names.set(symbol, {
        name: exported.name,
        entry,
        kind: kindOf(symbol, declared, checker),
        doc: ts.displayPartsToString(symbol.getDocumentationComment(checker)),
        examples: tags.filter((tag) => tag.name === 'example').map((tag) => ts.displayPartsToString(tag.text)),
        place: `${relative(resolve('.'), file.fileName)}:${file.getLineAndCharacterOfPosition(declared.getStart()).line + 1}`,
      });
    }
  }
  return [...names.values()];
}

function kindOf(symbol, declared, checker) {
  if (symbol.flags & ts.SymbolFlags.Class) return 'class';
  if (!(symbol.flags & ts.SymbolFlags.Value)) return 'type';
  return checker.getTypeOfSymbolAtLocation(symbol, declared).getCallSignatures().length > 0 ? 'function' : 'constant';
}
