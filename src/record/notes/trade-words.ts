/** Words of the trade that a general tagger takes for something else, or does not know. */
export const TRADE_WORDS: Readonly<Record<string, string>> = Object.fromEntries(
  [
    "analyser anode baffle band base bearing blower board boiler bolt bracket burner cap cartridge case chamber clamp clip cock",
    "coil condensate condenser controller coupling cover damper diaphragm dip drain drip elbow electrode element exchanger fan",
    "filter flame float flue gasket gauge grommet grille harness header hose igniter impeller inhibitor insert isolator jet",
    "joint kit lag lagging limescale magnetite manifold manometer manual mesh motor nipple nozzle nut o-ring orifice panel pcb",
    "pipe plate plug port probe pump rail regulator relay relief ring rod rope screw seal sealant sensor service sheet siphon",
    "sludge solenoid spark spring stat sticker stopcock strainer strip sump switch tank tap tee terminal thermistor thermostat",
    "trap tray tube union valve vent venturi vessel washer wiring",
  ]
    .join(" ")
    .split(" ")
    .map((word) => [word, "Noun"]),
);
