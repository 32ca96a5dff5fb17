import type { DayOrder, RepairAnswer } from '@linewright/repair';
import { Field, ID, InputType, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { connectionOf } from '../graphql/connection.js';
import { ComputationModel } from '../jobs/computation.model.js';
import {
  ImportDayOrder,
  ImportRepairAnswer,
  ImportRepairsInput,
  ImportRepairsModel,
  ImportSeparator,
} from './import-repairs.model.js';
import { ImportColumnRole } from '../stock/rows/import-column-choice.js';

registerEnumType(ImportColumnRole, {
  name: 'ImportColumnRole',
  description: 'What a column of a pedigree file holds.',
  valuesMap: {
    TAG: { description: 'Tag of the fish itself.' },
    SIRE: { description: 'Tag of its sire.' },
    DAM: { description: 'Tag of its dam.' },
    SEX: { description: 'Its sex.' },
    HATCH_DATE: { description: 'The day it hatched.' },
    LINE: { description: 'Code of its line.' },
    SPAWN: {
      description:
        'Tag or number of its spawn: fish with the same one are full sibs, also when nobody knows their parents.',
    },
    UNRELATED: {
      description: 'Yes when its unknown parents are known to be unrelated to the other fish.',
    },
    NAME: { description: 'Its name.' },
    NOTE: { description: 'A note on it.' },
    DISPOSITION: { description: 'Whether it is in use, or what became of it.' },
    ORIGIN: { description: 'Where it is from.' },
    KEEPER: { description: 'With whom it swims.' },
    VESSEL: { description: 'Code of the jar, tank or tub that it is in.' },
    TRAIT: { description: 'Values of one trait.' },
    IGNORE: { description: 'Not read.' },
  },
});

@ObjectType('ImportColumn', { description: 'One column of the file and what it is read as.' })
export class ImportColumnModel {
  @Field(() => String, { description: 'Its header in the file.' })
  header: string;

  @Field(() => ImportColumnRole, { description: 'What it is read as.' })
  role: ImportColumnRole;

  @Field(() => ID, {
    nullable: true,
    description: 'The recorded trait its values go to; empty when the import makes one.',
  })
  traitId: string | null;

  @Field(() => String, { nullable: true, description: 'Name of that trait.' })
  traitName: string | null;

  @Field(() => [String], { description: 'A few of its values.' })
  sample: string[];
}

@InputType({ description: 'What a column of the file is to be read as.' })
export class ImportColumnInput {
  @Field(() => String, { description: 'Its header in the file.' })
  header: string;

  @Field(() => ImportColumnRole, { description: 'What it is to be read as.' })
  role: ImportColumnRole;

  @Field(() => ID, { nullable: true, description: 'For a trait column: the recorded trait.' })
  traitId?: string | null;

  @Field(() => String, {
    nullable: true,
    description: 'For a trait column without a recorded trait: name of the one to make.',
  })
  traitName?: string | null;
}

@ObjectType('ImportProblem', { description: 'One reason why the file cannot be taken in.' })
export class ImportProblemModel {
  @Field(() => Int, { description: 'Line of the file, the header being line 1.' })
  line: number;

  @Field(() => String, {
    nullable: true,
    description: 'Header of the column; empty when the row or the file is meant.',
  })
  column: string | null;

  @Field(() => String, { description: 'Code of the problem, IMPORT_….' })
  code: string;

  @Field(() => String, { nullable: true, description: 'The value that cannot be taken.' })
  value: string | null;

  @Field(() => String, { description: 'What is wrong.' })
  message: string;

  @Field(() => String, { description: 'What to do.' })
  remedy: string;
}

@ObjectType('ImportNote', {
  description: 'Something that is read otherwise than it stands in the file.',
})
export class ImportNoteModel {
  @Field(() => Int, { description: 'Line of the file on which it stands first.' })
  line: number;

  @Field(() => String, { nullable: true, description: 'Header of the column.' })
  column: string | null;

  @Field(() => String, { description: 'Code of the note, IMPORT_….' })
  code: string;

  @Field(() => String, { description: 'How it is read.' })
  message: string;
}

@ObjectType('ImportFaultyValue', { description: 'One wrong or doubtful value of a cause.' })
export class ImportFaultyValueModel {
  @Field(() => String, { nullable: true, description: 'What stands there; empty for nothing.' })
  value: string | null;

  @Field(() => Int, { description: 'How often.' })
  count: number;

  @Field(() => [Int], { description: 'Lines of the file, the first 12.' })
  lines: number[];

  @Field(() => String, { description: 'The first row that has it, its cells set apart by dots.' })
  row: string;

  @Field(() => String, { description: 'What is wrong.' })
  message: string;

  @Field(() => String, { description: 'What to do.' })
  remedy: string;

  @Field(() => [String], { description: 'What was most likely meant, the likeliest first.' })
  offers: string[];
}

@ObjectType('ImportCause', {
  description: 'All faults of one kind in one column: one cause, and mostly one answer.',
})
export class ImportCauseModel {
  @Field(() => String, { description: 'Code of the faults, IMPORT_….' })
  code: string;

  @Field(() => String, { nullable: true, description: 'Header of the column.' })
  column: string | null;

  @Field(() => Int, { description: 'How many faults there are.' })
  count: number;

  @Field(() => String, { description: 'What they have in common, with their number.' })
  title: string;

  @Field(() => [ImportRepairAnswer], { description: 'Answers that all of them can be given.' })
  answers: RepairAnswer[];

  @Field(() => Boolean, {
    description: 'Whether a wrong value is mended wherever it stands; else row by row.',
  })
  byValue: boolean;

  @Field(() => Int, { description: 'How many different values there are.' })
  valueCount: number;

  @Field(() => Int, { description: 'How many of them have exactly one offer.' })
  offered: number;

  @Field(() => [ImportFaultyValueModel], {
    description: 'The values, the most frequent first, at most 50.',
  })
  values: ImportFaultyValueModel[];
}

@ObjectType('ImportDays', { description: 'How the hatch dates of a file are written.' })
export class ImportDaysModel {
  @Field(() => Int, { description: 'Days that read differently, day first and month first.' })
  open: number;

  @Field(() => ImportDayOrder, {
    nullable: true,
    description: 'The order they are read in; empty while it has to be asked.',
  })
  order: DayOrder | null;

  @Field(() => String, {
    nullable: true,
    description: 'The day of the file that proves the order; empty when it was said, or none does.',
  })
  proof: string | null;
}

@ObjectType('RememberedImport', {
  description: 'An earlier file of the same columns, by which this one is read.',
})
export class RememberedImportModel {
  @Field(() => String, { description: 'Its name.' })
  fileName: string;

  @Field(() => Date, { description: 'When it was taken in.' })
  at: Date;
}

@ObjectType('ImportPreview', {
  description: 'What an import would write, and what stands in its way. Nothing is written.',
})
export class ImportPreviewModel {
  @Field(() => String, { description: 'Fingerprint of the text that was looked at (SHA-256).' })
  token: string;

  @Field(() => String, { description: 'Name of the file.' })
  fileName: string;

  @Field(() => Int, { description: 'Rows below the header.' })
  rowCount: number;

  @Field(() => [ImportColumnModel], { description: 'Every column, in the order of the file.' })
  columns: ImportColumnModel[];

  @Field(() => [ImportProblemModel], { description: 'The problems by line, at most 2000.' })
  problems: ImportProblemModel[];

  @Field(() => Int, { description: 'How many problems there are.' })
  problemCount: number;

  @Field(() => [ImportCauseModel], {
    description: 'The problems by their causes, the most frequent first.',
  })
  causes: ImportCauseModel[];

  @Field(() => [ImportCauseModel], {
    description: 'What is doubtful, or read otherwise than it stands, by its causes.',
  })
  doubts: ImportCauseModel[];

  @Field(() => ImportRepairsModel, { description: 'What was decided, and how often it mattered.' })
  repairs: ImportRepairsModel;

  @Field(() => ImportSeparator, { description: 'What stands between the cells of a row.' })
  separator: string;

  @Field(() => ImportDaysModel, {
    nullable: true,
    description: 'How the hatch dates are written; empty without such a column.',
  })
  days: ImportDaysModel | null;

  @Field(() => Int, {
    description: 'New fish of which the file does not say whether they are in use.',
  })
  unmarked: number;

  @Field(() => RememberedImportModel, {
    nullable: true,
    description: 'The earlier file by which this one is read.',
  })
  remembered: RememberedImportModel | null;

  @Field(() => [ImportNoteModel], {
    description: 'What is read otherwise than it stands in the file, by line, at most 2000.',
  })
  notes: ImportNoteModel[];

  @Field(() => Int, { description: 'How many notes there are.' })
  noteCount: number;

  @Field(() => Int, { description: 'Rows that are not fish, such as sums, and are not taken in.' })
  skippedRows: number;

  @Field(() => Boolean, { description: 'True when the file can be taken in as it is.' })
  ready: boolean;

  @Field(() => Int, { description: 'Fish that would be recorded.' })
  newFish: number;

  @Field(() => Int, { description: 'Fish of the file that are recorded already.' })
  knownFish: number;

  @Field(() => [String], { description: 'Codes of lines that would be made.' })
  newLines: string[];

  @Field(() => Int, { description: 'Spawns that would be made for the broods in the file.' })
  newSpawns: number;

  @Field(() => Int, { description: 'Scores that would be recorded.' })
  scores: number;

  @Field(() => [[String]], { description: 'The first rows, cell by cell.' })
  sampleRows: string[][];
}

@ObjectType('ImportResult', { description: 'What an import wrote.' })
export class ImportResultModel {
  @Field(() => Int, { description: 'Fish recorded.' })
  fish: number;

  @Field(() => Int, { description: 'Spawns made for their broods.' })
  spawns: number;

  @Field(() => Int, { description: 'Lines made.' })
  lines: number;

  @Field(() => Int, { description: 'Scores recorded.' })
  scores: number;

  @Field(() => Int, { description: 'Traits made.' })
  traits: number;

  @Field(() => Int, {
    description: 'Fish of the file that were recorded already and stay as they are.',
  })
  unchanged: number;

  @Field(() => Int, { description: 'Rows that are not fish, such as sums, and were not taken in.' })
  skippedRows: number;
}

export const ImportPurpose = { LOOK: 'look', TAKE: 'take' } as const;
export type ImportPurpose = (typeof ImportPurpose)[keyof typeof ImportPurpose];
registerEnumType(ImportPurpose, {
  name: 'ImportPurpose',
  description: 'What is to be done with a pedigree file.',
  valuesMap: {
    LOOK: { description: 'Tell what its import would do; nothing is written.' },
    TAKE: { description: 'Take it in: all of it, or nothing when there is any problem.' },
  },
});

@InputType({ description: 'A pedigree file, and what is to be done with it.' })
export class BeginImportInput {
  @Field(() => ID, { description: 'A new UUID: sent twice, it is begun once.' })
  id: string;

  @Field(() => ImportPurpose, { description: 'What is to be done.' })
  purpose: ImportPurpose;

  @Field(() => String, { description: 'Name of the file.' })
  fileName: string;

  @Field(() => String, { description: 'All of its text.' })
  text: string;

  @Field(() => [ImportColumnInput], {
    nullable: true,
    description:
      'What columns are to be read as; a column not named here is read as its header suggests.',
  })
  columns?: ImportColumnInput[] | null;

  @Field(() => ImportRepairsInput, {
    nullable: true,
    description:
      'What was decided about it. A look without columns and repairs takes over what was decided about the last file of the same columns.',
  })
  repairs?: ImportRepairsInput | null;
}

@ObjectType('ImportRun', {
  description: 'A look at a pedigree file, or its taking in: the answer, or how far it is.',
})
export class ImportRunModel {
  @Field(() => ID, { description: 'The UUID it was begun under.' })
  id: string;

  @Field(() => ImportPurpose, { description: 'What is done.' })
  purpose: ImportPurpose;

  @Field(() => String, { description: 'Name of the file.' })
  fileName: string;

  @Field(() => ImportPreviewModel, {
    nullable: true,
    description: 'What a look told; empty before its end.',
  })
  preview: ImportPreviewModel | null;

  @Field(() => ImportResultModel, {
    nullable: true,
    description: 'What was written; empty before its end, and then nothing is.',
  })
  result: ImportResultModel | null;

  @Field(() => ComputationModel, {
    nullable: true,
    description: 'The long computation at it; empty for a file small enough to be done at once.',
  })
  computation: ComputationModel | null;
}

@ObjectType('ImportRunConnection', { description: 'One page of the imports of large files.' })
export class ImportRunConnectionModel extends connectionOf(
  ImportRunModel,
  'ImportRun',
  'imports of large files',
) {}
