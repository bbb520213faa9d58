/** The commands: how each is called, its options, and the file that does it, loaded when it is called. */
import type { Options } from 'yargs';
import type { ExitCode } from './exit-code.js';
import {
  curvesOption,
  jsonOption,
  motifOptions,
  outputOptions,
  planOptions,
  smoothOption,
  spacingOption,
  type Typed,
} from './options.js';

export interface Command {
  /** In yargs' words: the name, then `<files..>` or other arguments. */
  readonly usage: string;
  readonly about: string;
  /** What to say where an argument is missing. */
  readonly needs: string;
  readonly options: Readonly<Record<string, Options>>;
  load(): Promise<(typed: Typed) => Promise<ExitCode>>;
}

const to: Options = { type: 'string', requiresArg: true, default: 'motif,svg,png' };

/** What goes on with a plan. */
const goingOn: Readonly<Record<string, Options>> = {
  out: text('folder for the line'),
  to: { ...to, default: 'svg', describe: 'forms of the line: motif, svg, dxf, png, csv' },
  force: outputOptions.force,
  unit: motifOptions.unit,
  config: motifOptions.config,
  ...jsonOption,
};

/** A new command is a file and an entry here. */
export const commands: readonly Command[] = [
  {
    usage: 'check <files..>',
    about: 'Say whether motifs will stitch well, what is wrong, where, and what to do',
    needs: 'Name at least one file: linewright check FILE...',
    options: {
      ...motifOptions,
      layout: {
        type: 'string',
        requiresArg: true,
        describe: 'row layout to judge, else the one kept with the motif',
      },
      ...spacingOption,
      ...jsonOption,
      picture: {
        type: 'string',
        requiresArg: true,
        describe: 'folder for pictures with the findings flagged',
      },
      force: outputOptions.force,
      full: { type: 'boolean', default: false, describe: 'the whole report of each file, however many' },
    },
    load: async () => (await import('./check.js')).check,
  },
  {
    usage: 'convert <files..>',
    about: 'Write motifs as motif files, SVG, DXF, pictures or tables of points',
    needs: 'Name at least one file: linewright convert FILE... --out FOLDER',
    options: {
      ...outputOptions,
      to: { ...to, describe: 'forms to write: motif, svg, dxf, png, csv' },
      ...curvesOption,
      pixels: { type: 'string', requiresArg: true, describe: 'width of pictures, 480 if not given' },
      rows: { type: 'string', requiresArg: true, describe: 'row layout to store in the motif file' },
      ...motifOptions,
      ...spacingOption,
      ...jsonOption,
    },
    load: async () => (await import('./convert.js')).convert,
  },
  {
    usage: 'mend <files..>',
    about: 'Put right what can be put right, and say what was done',
    needs: 'Name at least one file: linewright mend FILE... --out FOLDER',
    options: {
      ...outputOptions,
      reshape: {
        type: 'boolean',
        default: false,
        describe: 'mend what changes the look, too: route, reach, untrace, quarter turn',
      },
      ...smoothOption,
      only: { type: 'string', requiresArg: true, describe: 'these mends alone, such as join,drop' },
      skip: { type: 'string', requiresArg: true, describe: 'all but these mends, such as thin' },
      to: { ...to, describe: 'forms to write: motif, svg, dxf, png, csv' },
      ...curvesOption,
      picture: { type: 'string', requiresArg: true, describe: 'folder for pictures of before and after' },
      ...motifOptions,
      ...spacingOption,
      ...jsonOption,
    },
    load: async () => (await import('./mend.js')).mend,
  },
  {
    usage: 'desk',
    about: 'Write the page that does it all in a browser',
    needs: '',
    options: {
      out: { ...text('file for the page, such as linewright.html'), demandOption: true },
      force: outputOptions.force,
    },
    load: async () => (await import('./desk.js')).desk,
  },
  {
    usage: 'rules [id]',
    about: 'List the rules, or say what one finds, why it matters and what to do',
    needs: '',
    options: {},
    load: async () => (await import('./rules.js')).rules,
  },
  {
    usage: 'rows <file>',
    about: 'Work out how the rows nest in each layout, and which one to choose',
    needs: 'Name a file: linewright rows FILE',
    options: {
      layout: {
        type: 'string',
        requiresArg: true,
        describe: 'straight, brick, mirrored, turned, or all of them',
      },
      ...spacingOption,
      ...motifOptions,
      ...jsonOption,
      picture: { type: 'string', requiresArg: true, describe: 'PNG of three rows of three repeats' },
      force: outputOptions.force,
    },
    load: async () => (await import('./rows.js')).rows,
  },
  {
    usage: 'plan <file>',
    about: 'Plan a whole quilt: size, rows, passes, thread, and what to do at the machine',
    needs: 'Name a file: linewright plan FILE --quilt "60in x 72in"',
    options: {
      quilt: { ...text('width and height of the top, such as "60in x 72in"'), demandOption: true },
      ...planOptions,
      resize: text('how far the size of the motif may change, 10% if not given'),
      runs: { ...text('back-and-forth or one-way'), default: 'back-and-forth' },
      choose: { ...text('number of the choice to take'), default: '1' },
      out: { ...text('folder for the plan, its sheet and its passes') },
      to: { ...to, default: 'svg', describe: 'forms of the passes: motif, svg, dxf, png, csv' },
      force: outputOptions.force,
      ...motifOptions,
      ...spacingOption,
      ...jsonOption,
    },
    load: async () => (await import('./plan.js')).plan,
  },
  {
    usage: 'resume <plan>',
    about: 'Go on with a pass of a plan from where the stitching stopped',
    needs: 'Name a plan or its folder: linewright resume PLAN --pass 3 --at "23in; 14in"',
    options: {
      pass: { ...text('number of the pass'), demandOption: true },
      at: {
        ...text('where it stopped, "X; Y" from the upper left corner of the top'),
        demandOption: true,
      },
      which: text('number of the way, where the line comes by more than once'),
      overlap: { ...text('how far before that place to begin'), default: '1/2in' },
      found: text('where the needle found the two check points: "X, Y; X, Y"'),
      expected: text('which two places were looked for, if not the check points'),
      ...goingOn,
    },
    load: async () => (await import('./resume.js')).resume,
  },
  {
    usage: 'align <plan>',
    about: 'Line a pass of a plan up with the quilt after rolling it on',
    needs: 'Name a plan or its folder: linewright align PLAN --pass 4 --found "X, Y; X, Y"',
    options: {
      pass: { ...text('number of the pass'), demandOption: true },
      found: {
        ...text('where the needle found the two check points: "X, Y; X, Y"'),
        demandOption: true,
      },
      expected: text('which two places were looked for, if not the check points'),
      ...goingOn,
    },
    load: async () => (await import('./align.js')).align,
  },
  {
    usage: 'sheet <file>',
    about: 'Make one page about a motif to print: picture, findings, rows, numbers',
    needs: 'Name a file: linewright sheet FILE --out sheet.html',
    options: {
      ...outputOptions,
      out: { ...outputOptions.out, describe: 'the page to write, such as sheet.html' },
      layout: { type: 'string', requiresArg: true, describe: 'row layout to draw, else the recommended one' },
      ...spacingOption,
      ...motifOptions,
    },
    load: async () => (await import('./sheet.js')).sheet,
  },
  {
    usage: 'paper <file>',
    about: 'Print rows of a motif at full size, on pages to put together, as PDF',
    needs: 'Name a file: linewright paper FILE --out pattern.pdf',
    options: {
      ...outputOptions,
      out: { ...outputOptions.out, describe: 'the PDF to write, such as kelp.pdf' },
      paper: text(
        'letter, legal, tabloid, a4, a3 or a size such as "24in x 60in"; letter, or with --unit mm a4, if not given',
      ),
      repeats: { ...text('repeats in a row'), default: '2' },
      rows: { ...text('rows'), default: '2' },
      layout: {
        type: 'string',
        requiresArg: true,
        describe: 'row layout, else the stored or recommended one',
      },
      spacing: { type: 'string', requiresArg: true, describe: 'row spacing, else the stored or even one' },
      overlap: { ...text('what neighbouring pages share'), default: '1/2in' },
      ...motifOptions,
      ...jsonOption,
    },
    load: async () => (await import('./paper.js')).paper,
  },
  {
    usage: 'library build <sources..>',
    about: 'Make a cleaned library of motif files and folders, or bring it up to date',
    needs: 'Name files or folders: linewright library build SOURCE... --out FOLDER',
    options: {
      out: { ...outputOptions.out, describe: 'folder of the library' },
      reshape: {
        type: 'boolean',
        default: false,
        describe: 'mend what changes the look, too: see linewright mend',
      },
      prune: { type: 'boolean', default: false, describe: 'drop motifs whose source is not named this time' },
      ...motifOptions,
      ...jsonOption,
    },
    load: async () => (await import('./library-build.js')).build,
  },
  {
    usage: 'library list <folder>',
    about: 'Search a library',
    needs: 'Name the folder of a library: linewright library list FOLDER',
    options: {
      name: text('in name, title, tags and note'),
      creator: text('designer'),
      tag: text('tag'),
      verdict: text('clean, warnings, errors'),
      'min-height': text('height from'),
      'max-height': text('height to'),
      'min-spacing': text('row spacing from'),
      'max-spacing': text('row spacing to'),
      'max-open': text('open circle to'),
      'max-stitches': text('stitches to'),
      order: { ...text('name, creator, height, spacing, open circle, stitches, verdict'), default: 'name' },
      unit: motifOptions.unit,
      config: motifOptions.config,
      ...jsonOption,
    },
    load: async () => (await import('./library-list.js')).list,
  },
  {
    usage: 'library check <folder>',
    about: 'Hold the files of a library against its index',
    needs: 'Name the folder of a library: linewright library check FOLDER',
    options: jsonOption,
    load: async () => (await import('./library-check.js')).verify,
  },
  {
    usage: 'library tag <folder> <name>',
    about: 'Give a motif of a library tags and a note',
    needs: 'Name a library and a motif: linewright library tag FOLDER NAME --add TAG',
    options: {
      add: { type: 'string', array: true, requiresArg: true, default: [], describe: 'tags to add' },
      remove: { type: 'string', array: true, requiresArg: true, default: [], describe: 'tags to take away' },
      note: text('note instead of the one there; an empty one takes it away'),
    },
    load: async () => (await import('./library-tag.js')).tag,
  },
];

function text(describe: string): Options {
  return { type: 'string', requiresArg: true, describe };
}
