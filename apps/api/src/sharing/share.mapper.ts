import { changeText } from '../shapes/history.mapper.js';
import type { RecordDifferencesModel } from './difference.model.js';
import type { RecordDifferences } from './differences.service.js';
import type { ShareReportModel } from './share.model.js';
import type { ReadReport } from './share.service.js';

export const toShareReport = (report: ReadReport): ShareReportModel => ({
  ...report,
  maker: { standing: report.maker.standing, words: report.maker.words.join(' ') },
  items: report.items.map((item) => ({
    ...item,
    changes: item.changes.map(({ field, before, after }) => ({
      field,
      before: changeText(before),
      after: changeText(after),
    })),
  })),
});

export const toRecordDifferences = (found: RecordDifferences): RecordDifferencesModel => ({
  ...found,
  differences: found.differences.map(({ part, versions }) => ({
    part,
    versions: versions.map((version) => ({
      ...version,
      from: [...version.from],
      values: version.values.map(({ field, value }) => ({ field, value: changeText(value) })),
    })),
  })),
});
