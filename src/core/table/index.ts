export { type Between, type Beyond, defineTable, lookUp, type Table } from "./table.js";
