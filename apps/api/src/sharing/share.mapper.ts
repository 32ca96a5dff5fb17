import { changeText } from '../shapes/history.mapper.js';
import type { ShareReportModel } from './share.model.js';
import type { ShareReport } from './share-report.js';

export const toShareReport = (report: ShareReport): ShareReportModel => ({
  ...report,
  items: report.items.map((item) => ({
    ...item,
    changes: item.changes.map(({ field, before, after }) => ({
      field,
      before: changeText(before),
      after: changeText(after),
    })),
  })),
});
