import loadHighs from "highs";
import type { LinearModel } from "@/lib/domain/settling/days/model-builder";

export type SolverHooks = {
  /** A proven lower bound of the model; each is at least the one before. */
  readonly onBound: (bound: number) => void;
  readonly onSolution: (values: ArrayLike<number>) => void;
  /** Asked every now and then; true ends the solve. */
  readonly isOver: () => boolean;
};

/** Solves with the least effort that is sound: the solver proves to its own limits, never to a looser gap. */
export type Solve = (model: LinearModel, seconds: number, hooks: SolverHooks) => "solved" | "infeasible" | "ended";

let loaded: Promise<Solve> | undefined;

/** Loads the solver once in a thread, which takes about a tenth of a second; it blocks its thread while it solves. */
export function loadSolver(): Promise<Solve> {
  return (loaded ??= load());
}

async function load(): Promise<Solve> {
  const highs = await loadHighs();
  const { callbackType, modelStatus, variableType } = highs.constants;
  return (model, seconds, { onBound, onSolution, isOver }) => {
    const { columns, rows, choices } = model;
    const { continuous, integer } = variableType;
    return highs.withModel(
      {
        numCols: columns,
        numRows: rows,
        colCost: model.cost,
        colLower: new Float64Array(columns),
        colUpper: model.most,
        rowLower: model.rowLeast,
        rowUpper: model.rowMost,
        matrix: { format: "csc", numRows: rows, numCols: columns, starts: model.starts, indices: model.rowOf, values: model.values },
        integrality: Int32Array.from({ length: columns }, (_, column) => (column < choices ? integer : continuous)),
      },
      (solver) => {
        solver.options.set({ output_flag: false, time_limit: seconds, mip_rel_gap: 0, mip_abs_gap: 1e-7 });
        solver.run({
          [callbackType.mipInterrupt](event) {
            if (event.data.mip_dual_bound !== undefined && Number.isFinite(event.data.mip_dual_bound)) onBound(event.data.mip_dual_bound);
            if (isOver()) event.interrupt();
          },
          [callbackType.mipImprovingSolution](event) {
            if (event.data.mip_solution !== undefined) onSolution(event.data.mip_solution);
          },
        });
        const status = solver.getModelStatus();
        if (status === modelStatus.infeasible) return "infeasible";
        if (status !== modelStatus.optimal) return "ended";
        onSolution(solver.getSolution().colValue);
        onBound(solver.getObjectiveValue());
        return "solved";
      },
    );
  };
}
