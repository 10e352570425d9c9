// The script of the example film as the program gives it, for stories and tests. A test
// of the program holds the two documents equal to what it says.
import boatPlanDocument from './boat_plan.json';
import boatScriptDocument from './boat_script.json';
import type { Plan, Script } from './script_types';

export function boatScript(): Script {
  return structuredClone(boatScriptDocument);
}

export function boatPlan(): Plan {
  return structuredClone(boatPlanDocument);
}
