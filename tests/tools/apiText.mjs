import ts from 'typescript';

/** The public signatures of the package's entries, as TypeScript declares them: one text to be read and compared. */
export function apiText(entries) {
  const program = ts.createProgram(entries, {
    module: ts.ModuleKind.NodeNext,
    target: ts.ScriptTarget.ES2022,
    skipLibCheck: true,
  });
  const checker = program.getTypeChecker();
  const printer = ts.createPrinter({ removeComments: true });
  return entries
    .map((entry) => {
      const module = checker.getSymbolAtLocation(program.getSourceFile(entry));
      const names = checker.getExportsOfModule(module).flatMap((symbol) => {
        const target = symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
        // Exported for the command line alone.
        if (target.getJsDocTags(checker).some(({ name }) => name === 'internal')) return [];
        const declared = target.declarations.map((node) => {
          const whole = ts.isVariableDeclaration(node) ? node.parent.parent : node;
          return printer.printNode(ts.EmitHint.Unspecified, whole, whole.getSourceFile());
        });
        return `${symbol.name}\n${declared.join('\n')}`;
      });
      return `# ${entry.replace(/^.*dist\//, '')}\n\n${names.sort().join('\n\n')}\n`;
    })
    .join('\n');
}

export const ENTRIES = [
  'dist/index.d.ts',
  'dist/node/node.d.ts',
  'dist/land/land.d.ts',
  'dist/catalogue/catalogue.d.ts',
  'dist/report/report.d.ts',
];
