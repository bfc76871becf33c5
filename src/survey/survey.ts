/** The schema of a survey: what was found at one site, composed from the trades' parts. */
import * as z from "zod";
import { jurisdictionInput, machineFacts, makerInput } from "../core/rule/index.js";
import { electricalPart } from "../electrical/index.js";
import { placementPart } from "../placement/index.js";
import { plumbingPart } from "../plumbing/index.js";
import { ventingPart } from "../venting/index.js";

/** A calendar date as ISO 8601 writes it. */
const date = z.iso.date().describe("Date as YYYY-MM-DD");
const line = (most: number) => z.string().min(1).max(most);

/**
 * A survey. Only the site's name and the machine's kind and fuel are needed; whatever else is left out comes back as a
 * list of what to measure, in the order of the fields here, which is the order one walks a site.
 */
export const surveyInput = z.strictObject({
  site: z
    .strictObject({
      id: line(100).describe("Name or number that tells this site from the others"),
      place: line(300).optional().describe("Where in the building the machine goes"),
    })
    .describe("The site"),
  measured: z
    .strictObject({
      by: line(200).optional().describe("Who measured"),
      on: date.optional(),
      with: line(300).optional().describe("Tape, level, meter and gauge used"),
    })
    .optional()
    .describe("Who measured, when and with what"),
  jurisdiction: jurisdictionInput.optional().describe("Codes adopted there, kind of building, local amendments"),
  machine: z
    .strictObject({
      ...machineFacts,
      ...placementPart.machine,
      ...electricalPart.machine,
      ...plumbingPart.machine,
      ...ventingPart.machine,
    })
    .describe("What the plate and the sheet of the machine say"),
  maker: makerInput.optional(),
  placement: placementPart.site.optional().describe("The way in, the room and the spot"),
  electrical: electricalPart.site.optional().describe("The power"),
  plumbing: plumbingPart.site.optional().describe("Water, drain and gas"),
  venting: ventingPart.site.optional().describe("The exhaust and the air for it"),
  notes: z.string().max(5000).optional().describe("Anything else worth keeping"),
});

/** A survey as callers write it. */
export type Survey = z.input<typeof surveyInput>;
