/** The usual cautions, by what the work touches. Our words; local code, the maker's instructions and licensed people decide. */
export const cautions = {
  mains:
    "Mains voltage kills. Switch the circuit off, lock it off, and prove it dead with a tester you have just checked on a live source. Where a licence is required, a licensed electrician does this work.",
  gas: "If you smell gas, do not touch a switch: leave, and call the gas supplier from outside. Only a qualified gas fitter opens, joins or tests gas piping.",
  carbonMonoxide:
    "A gas machine that cannot breathe or exhaust makes carbon monoxide, which cannot be smelt. Never exhaust indoors; fit a carbon monoxide alarm.",
  fire: "Lint burns. Exhaust outdoors through smooth metal duct, never into an attic, crawl space, wall or chimney, and clean the run regularly.",
  water:
    "A burst hose floods a home in minutes. Know where the shut-off valve is, and watch every joint with the water on before you leave.",
  scald: "Hot supply water scalds. Shut the valve and let the line cool before opening a joint.",
  lifting:
    "Two people and a strapped hand truck move a machine of this weight; no calculation here makes a lift safe. Keep hands out from under the edge.",
  tipOver:
    "A machine can tip when its door is loaded or it is tilted. Fit the anti-tip device or stacking kit the maker supplies.",
  movingConnected: "Shut off power, water and gas before moving a machine that is connected.",
  deferral: "Local code, the maker's instructions and licensed practice decide; this check does not replace them.",
} as const;

/** The name of a caution. */
export type Caution = keyof typeof cautions;
