declare module "psychrolib" {
  const psychrolib: {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    /** Pa at °C. */
    GetSatVapPres(celsius: number): number;
    /** °C from dry-bulb °C and vapour pressure Pa. */
    GetTDewPointFromVapPres(dryBulb: number, pascal: number): number;
    /** Pa at metres. */
    GetStandardAtmPressure(metres: number): number;
  };
  export default psychrolib;
}
