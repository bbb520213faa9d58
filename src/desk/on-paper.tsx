import { papers, usualPaper } from '../paper/index.js';
import type { OnPaper as Wanted } from './choices.js';
import { Typed } from './field.js';
import { choose, current } from './state.js';

/** What the pattern on paper is to hold. */
export function OnPaper() {
  const { paper, unit } = current.value!.choices;
  const set = (change: Partial<Wanted>) => {
    const next = { ...paper, ...change };
    if (JSON.stringify(next) !== JSON.stringify(paper)) choose({ paper: next }, 'paper');
  };
  const usual = usualPaper(unit);
  return (
    <details>
      <summary>The pattern on paper</summary>
      <p>
        Rows at full size, on pages to put together. Print them at 100 %, not fitted to the page, and measure
        the squares on page 1.
      </p>
      <div class="fields">
        <Typed
          label="Paper"
          hint={`${Object.keys(papers).join(', ')}, or a size such as 24in x 60in; ${usual} if empty`}
          flaw={null}
          text={paper.sheet}
          onText={(sheet) => set({ sheet: sheet.trim() })}
        />
        <Typed
          label="Repeats in a row"
          hint="2 if empty"
          flaw={null}
          text={paper.repeats}
          onText={(repeats) => set({ repeats: repeats.trim() })}
        />
        <Typed
          label="Rows on paper"
          hint="2 if empty"
          flaw={null}
          text={paper.rows}
          onText={(rows) => set({ rows: rows.trim() })}
        />
        <Typed
          label="Pages overlap by"
          hint="1/2in if empty"
          flaw={null}
          text={paper.overlap}
          onText={(overlap) => set({ overlap: overlap.trim() })}
        />
      </div>
    </details>
  );
}
