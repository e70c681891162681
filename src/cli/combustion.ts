import { details } from "../combustion/details.ts";
import { flueGas } from "../combustion/flue-gas.ts";
import { gasInput } from "../combustion/gas-input.ts";
import { waterHeat } from "../combustion/water-heat.ts";
import { FLAG, readRequest, USAGE } from "./combustion-flags.ts";
import { refuse, type Verb } from "./verb.ts";

/**
 * Exit status 0 with one JSON line; 2 where the flags cannot be read; 1 where the numbers cannot be right. The line has more
 * fields where more was asked: of the gas meter, of the water, and with --details; and only theirs where nothing was asked of
 * the flue gas.
 */
export const combustion: Verb = {
  usage: USAGE,
  run: async (args, io) => {
    const read = readRequest(args);
    if (!read.ok) return refuse(io, "combustion", read.problems, 2);
    const { request } = read;
    const flue = request.flueGas === null ? null : flueGas(request.flueGas);
    const input = request.meter === null ? null : gasInput(request.meter);
    const heat = request.water === null ? null : waterHeat(request.water);
    if (flue?.ok === false || input?.ok === false || heat?.ok === false) {
      const problems = [
        ...(flue === null || flue.ok ? [] : flue.problems),
        ...(input === null || input.ok ? [] : input.problems),
        ...(heat === null || heat.ok ? [] : heat.problems),
      ].map(({ path, message }) => `--${FLAG[path]}: ${message}`);
      return refuse(io, "combustion", [...new Set(problems)], 1);
    }
    io.json({
      ...flue?.flueGas,
      ...input?.gasInput,
      ...heat?.waterHeat,
      ...(request.flueGas && flue && request.details
        ? details(request.flueGas, flue.flueGas, request.fuelId)
        : {}),
    });
    return 0;
  },
};
