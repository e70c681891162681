const NOUNS: readonly string[] = [
  "alarm analyser anode baffle band base battery batteries bearing blower board boiler bolt bracket burner cap cartridge case chamber chimney clamp clip co co2 cock",
  "coil condensate condenser controller coupling cover current damper diaphragm dip drain drip elbow electrode element exchanger fan",
  "filter flame float flue gasket gauge grommet grille harness header hose igniter impeller inhibitor insert isolator jet",
  "joint kit label lag lagging limescale magnetite manifold manometer manual mesh motor nipple nozzle nut o-ring o2 orifice panel pcb",
  "pipe plate plug port probe pump radiator rail regulator relay relief ring rod rope screw seal sealant sensor service sheet siphon",
  "sludge solenoid spark spring stat sticker stopcock strainer strip sump switch tank tap tee terminal thermistor thermostat",
  "bushing casing cladding coating fitting housing lining opening packing tubing",
  "system circuit pipework timer programmer cylinder",
  "trap tray tube union valve vent venturi vessel washer wiring",
]
  .join(" ")
  .split(" ");

/** Words of the trade that a general tagger takes for something else, or does not know: they are nouns. */
export const TRADE_WORDS: Readonly<Record<string, string>> = Object.fromEntries(
  NOUNS.map((word) => [word, "Noun"]),
);

const TRADE = new Set(NOUNS.flatMap((word) => [word, `${word}s`, `${word}es`]));

/** Whether a word (in lower case) is one of them, one or many. */
export function isOfTrade(word: string): boolean {
  return TRADE.has(word);
}
