declare module "@lhncbc/ucum-lhc" {
  const ucum: {
    readonly UcumLhcUtils: {
      getInstance(): {
        convertUnitTo(from: string, value: number, to: string): { status: string; toVal: number | null };
        validateUnitString(code: string): { status: "valid" | "invalid" | "error" };
      };
    };
  };
  export default ucum;
}
