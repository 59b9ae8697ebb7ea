export function schemaTexts(): Readonly<Record<string, string>>;
