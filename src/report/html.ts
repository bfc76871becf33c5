/** Reports as one self-contained HTML file each. */
export { type BatchReportOptions, batchHtml } from "./html-batch.js";
export { type SiteReportOptions, siteHtml } from "./html-site.js";
