import { lettersToCheck, type FileText } from '@linewright/pedigree';

interface ImportEncodingProps {
  text: string;
  encoding: FileText['encoding'] | null;
}

const words: Record<FileText['encoding'], string> = {
  'UTF-8': 'UTF-8',
  'UTF-16LE': 'UTF-16',
  'UTF-16BE': 'UTF-16',
  'Windows-1252': 'Windows-1252 (Western European)',
};

/** How the letters of the file were read, with some of them to check: the encoding is found, not known. */
export function ImportEncoding({ text, encoding }: ImportEncodingProps) {
  const letters = lettersToCheck(text);
  if (encoding === null || (encoding === 'UTF-8' && letters.length === 0)) return null;
  return (
    <p className="lw-words">
      Letters were read as {words[encoding]}.{' '}
      {letters.length > 0 && (
        <>
          Check these: <strong>{letters.join(', ')}</strong>. If they are wrong, save the file again
          as CSV (UTF-8), then choose it again.
        </>
      )}
    </p>
  );
}
