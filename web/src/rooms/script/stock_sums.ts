// The sum behind the film of all takes.
import { footageSum, type SumLine } from '$lib/film/sums';
import { grouped } from '$lib/film/grouped';
import type { Plan } from './script_types';

export function framesOnRolls(plan: Plan, perFoot: number): SumLine[] {
  const rolls = plan.by_roll.map((roll, at) => ({
    sum: `roll ${at + 1}: ${roll.setups.join(' ')}`,
    comes: grouped(roll.frames),
  }));
  return [
    ...rolls,
    {
      sum: `${plan.takes} takes, ${plan.stock.run_up} frames of run-up each`,
      comes: grouped(plan.frames),
    },
    ...footageSum(plan.frames, perFoot),
  ];
}
