// What every page promises: it loads nothing and tells nothing to the console, its style is the one that its policy names,
// it fits a screen of 320 pixels, checkers of accessibility and of HTML find nothing, what people wrote stays text, and its
// figures are those of the JSON. On paper no word is lost at the edge, and how a limit turned out is ink, brick or hatched grey.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, mkdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { HtmlValidate } from 'html-validate';
import { chromium } from 'playwright-core';

const require = createRequire(import.meta.url);
const axeSource = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
const QUERN = process.env.QUERN;
const shots = process.argv[2] === '--shots' ? process.argv[3] : null;
const work = mkdtempSync(join(tmpdir(), 'quern-pages-'));
const AXE_EACH = 9;             // of so many pages axe looks at one, besides the index; all are made of the same blocks
let passed = 0, failed = 0;

function check(good, what, why = '') {
    if (good) { passed++; return; }
    failed++;
    console.log(`FAILED ${what}${why ? `: ${why}` : ''}`);
}

// A recipe that breaks a limit makes the status 1; 2 and more is a failure.
function quern(...args) {
    try {
        return execFileSync(QUERN, args, { encoding: 'utf8', maxBuffer: 1 << 28, stdio: ['ignore', 'pipe', 'pipe'] });
    } catch (error) {
        if (error.status !== 1) throw error;
        return error.stdout;
    }
}

function pagesOf(folder) {
    return readdirSync(folder).filter(name => name.endsWith('.html')).sort().map(name => join(folder, name));
}

// ---- HTML ----

const validator = new HtmlValidate({
    root: true, extends: ['html-validate:recommended'],
    rules: {
        'long-title': 'off',                        // a title is a recipe's name, as long as it is
        'no-implicit-button-type': 'off', 'require-sri': 'off',
        'no-inline-style': 'error',
        // For a region that is scrolled by keys a group within the section says what is needed.
        'prefer-native-element': 'error',
    },
});

async function checkMarkup(file, name) {
    const report = await validator.validateFile(file);
    const first = report.results.flatMap(result => result.messages)[0];
    check(report.valid, `${name}: html-validate`, first && `${first.line}:${first.column} ${first.message} [${first.ruleId}]`);
}

// ---- figures: each that stands behind words of the page stands in the JSON, too ----

function numbersOf(json, found = []) {
    if (typeof json === 'number') found.push(json);
    else if (json && typeof json === 'object') Object.values(json).forEach(value => numbersOf(value, found));
    return found;
}

function holds(sorted, value) {
    let low = 0, high = sorted.length;
    const slack = Math.abs(value) * 1e-9 + 1e-12;
    while (low < high) {
        const middle = (low + high) >> 1;
        if (sorted[middle] < value - slack) low = middle + 1; else high = middle;
    }
    return low < sorted.length && sorted[low] <= value + slack;
}

// A week shows its days, each of which has a file of its own.
function checkFigures(values, jsonFile, name, others) {
    const json = JSON.parse(readFileSync(jsonFile, 'utf8'));
    if (json.weeks.length) json.days = others.flatMap(file => JSON.parse(readFileSync(file, 'utf8')).days);
    // What was saved is what a line held before it was treated, less what it holds.
    const saved = json.recipes.flatMap(recipe => recipe.lines).filter(line => line.sodium_before && line.sodium)
        .map(line => line.sodium_before.best - line.sodium.best);
    const numbers = [...numbersOf(json), ...saved].sort((a, b) => a - b);
    // The JSON gives lines for all of the recipe, and a page a share of that: for one serving.
    const servings = json.recipes[0]?.servings?.best ?? 1;
    const missing = values.filter(value => !holds(numbers, value) && !holds(numbers, value * servings));
    check(values.length > 0, `${name}: it has figures`);
    check(missing.length === 0, `${name}: figures of the JSON`, `${missing.length} of ${values.length} are not there, first ${missing[0]}`);
    const recipe = json.recipes[0];
    const sodium = recipe && recipe.per_serving && recipe.per_serving.sodium;
    if (sodium)
        check(values.some(value => Math.abs(value - (sodium.best ?? sodium.low)) <= 1e-9 * value), `${name}: sodium per serving stands there`);
}

// ---- a page in the browser ----

// One page of the browser for all files: what it tells goes to the list of the one that is open.
const state = { file: '', told: [] };

async function start(browser) {
    const page = await (await browser.newContext()).newPage();
    page.on('console', message => state.told.push(`console: ${message.text()}`));
    page.on('pageerror', error => state.told.push(`error: ${error.message}`));
    page.on('dialog', dialog => { state.told.push(`dialog: ${dialog.message()}`); dialog.dismiss(); });
    page.on('request', request => {
        const url = request.url();
        if (url !== pathToFileURL(state.file).href && !url.startsWith('data:')) state.told.push(`request: ${url}`);
    });
    return page;
}

async function open(page, file, width, colorScheme) {
    Object.assign(state, { file, told: [] });
    await page.setViewportSize({ width, height: 800 });
    await page.emulateMedia({ media: 'screen', colorScheme });
    await page.goto(pathToFileURL(file).href);
}

async function checkAxe(page, name) {
    await page.evaluate(axeSource);
    const result = await page.evaluate(() => axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }));
    const first = result.violations[0];
    check(result.violations.length === 0, name, first && `${first.id}: ${first.help}: ${first.nodes[0].html.slice(0, 160)}`);
}

async function checkPage(page, file, name, withAxe) {
    await open(page, file, 320, 'light');
    const facts = await page.evaluate(() => ({
        width: document.documentElement.scrollWidth,
        paper: getComputedStyle(document.body).backgroundColor,
        dangerous: [...document.querySelectorAll('*')].filter(one =>
            ['SCRIPT', 'IMG', 'IFRAME', 'OBJECT', 'EMBED', 'FORM', 'INPUT'].includes(one.tagName.toUpperCase())
            || [...one.attributes].some(attribute => attribute.name.startsWith('on') || attribute.name === 'style')).map(one => one.outerHTML.slice(0, 120)),
        values: [...document.querySelectorAll('data')].map(one => Number(one.value)),
        links: [...document.querySelectorAll('a[href]')].map(one => one.getAttribute('href')),
        keys: [...document.querySelectorAll('svg text, .key b')].map(one => one.textContent),
        title: document.title, heading: document.querySelector('h1')?.textContent, text: document.body.innerText,
    }));
    check(facts.width <= 320, `${name}: fits 320 pixels`, `${facts.width}`);
    check(facts.paper === 'rgb(251, 248, 241)', `${name}: its style is let in by its policy`, facts.paper);
    check(facts.dangerous.length === 0, `${name}: nothing that runs, loads or is styled by itself`, facts.dangerous[0]);
    check(facts.title === facts.heading, `${name}: title and heading agree`, `${facts.title} / ${facts.heading}`);
    check(facts.keys.every(key => /^[1-9][0-9]*$/.test(key)), `${name}: its pictures have numbers, no letters that could be read as grades`, facts.keys.join(' '));
    if (withAxe) {
        await checkAxe(page, `${name}: axe on a phone`);
        await page.setViewportSize({ width: 1280, height: 900 });
        await page.emulateMedia({ colorScheme: 'dark' });
        await checkAxe(page, `${name}: axe, dark`);
    }
    check(state.told.length === 0, `${name}: silent, and loads nothing`, state.told[0]);
    return facts;
}

// ---- what is looked at ----

async function checkKitchen(page, kitchen, label) {
    const html = join(work, label), again = join(work, `${label}-again`), json = join(work, `${label}-json`);
    quern('report', '--as', 'html', '--out', html, kitchen);
    quern('report', '--as', 'html', '--out', again, kitchen);
    quern('report', '--as', 'json', '--out', json, kitchen);
    const files = pagesOf(html), names = new Set(files.map(file => file.slice(html.length + 1)));
    check(files.length > 4, `${label}: pages are written`);
    check(files.every(file => readFileSync(file).equals(readFileSync(join(again, file.slice(html.length + 1))))), `${label}: the same from run to run`);
    const seen = new Map();
    let reports = 0;
    for (const file of files) {
        const short = file.slice(html.length + 1), name = `${label}/${short}`, isIndex = short.startsWith('index');
        const facts = await checkPage(page, file, name, isIndex ? short === 'index.html' : reports++ % AXE_EACH === 0);
        const lost = facts.links.filter(link => link !== '#' && !names.has(decodeURIComponent(link)));
        check(lost.length === 0, `${name}: its links lead somewhere`, lost[0]);
        if (!isIndex) checkFigures(facts.values, join(json, short.replace(/html$/, 'json')), name, readdirSync(json).map(one => join(json, one)));
        await checkMarkup(file, name);
        seen.set(short, facts);
    }
    const linked = new Set(seen.get('index.html').links);
    check([...names].filter(name => !name.startsWith('index')).every(name => linked.has(name)), `${label}: the index leads to every report`);
    return seen;
}

// Each mark of hostile.quern that a page shows is there letter by letter.
function checkHostile(seen) {
    const mark = field => `<img src=x onerror=alert('${field}')>&amp;`;
    const page = [...seen.values()].find(facts => facts.heading === mark('recipe'));
    check(Boolean(page), 'hostile: the recipe has its name');
    for (const field of ['policy', 'label', 'document', 'bath', 'part', 'method', 'note', 'phrase', 'source'])
        check(page?.text.includes(mark(field)), `hostile: the ${field} is shown as text`);
    const day = [...seen.values()].find(facts => facts.heading === mark('day'));
    check(day?.text.includes(mark('meal')), 'hostile: the meal is shown as text');
    check([...seen.values()].some(facts => facts.heading === mark('week')), 'hostile: the week has its name');
    check([...seen.values()].some(facts => facts.heading.startsWith('</title></style></script></svg></table>')), 'hostile: a name closes nothing');
    check(seen.get('index.html').text.includes(mark('recipe')), 'hostile: the index shows the name as text');
}

// A recipe on paper: one leaf, printed on both sides.
async function checkPaper(page, label, short) {
    const file = join(work, label, short);
    await open(page, file, 820, 'light');
    await page.emulateMedia({ media: 'print' });
    for (const format of ['A4', 'Letter']) {
        const paper = (await page.pdf({ format })).toString('latin1');
        const pages = Math.max(...[...paper.matchAll(/\/Count (\d+)/g)].map(found => Number(found[1])));
        check(pages >= 1 && pages <= 2, `${label}/${short}: on one or two pages of ${format}`, `${pages}`);
    }
}

// ---- no word is lost on paper ----

// What a printer may not reach is no place for a word: the margins of the sheet, in points, less a hair.
const MARGINS = { side: 1.4 / 2.54 * 72 - 1, end: 1.3 / 2.54 * 72 - 1 };

function digitsIn(text) {
    return text.replace(/[^0-9]/g, '');
}

// Words of a page that lie over one another by more than a third of the smaller one: a table that is too wide for its column.
function overlaps(boxes) {
    const found = [];
    for (const leaf of boxes.split('<page ').slice(1)) {
        const words = [...leaf.matchAll(/<word xMin="([-0-9.]+)" yMin="([-0-9.]+)" xMax="([-0-9.]+)" yMax="([-0-9.]+)">(.*)<\/word>/g)]
            .map(one => ({ left: +one[1], top: +one[2], right: +one[3], bottom: +one[4], text: one[5] })).sort((a, b) => a.top - b.top);
        for (let i = 0; i < words.length; i++) {
            for (let j = i + 1; j < words.length && words[j].top < words[i].bottom; j++) {
                const a = words[i], b = words[j];
                const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left), high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
                const least = Math.min((a.right - a.left) * (a.bottom - a.top), (b.right - b.left) * (b.bottom - b.top));
                if (wide > 0 && high > 0 && wide * high > least / 3) found.push(`${a.text} and ${b.text}`);
            }
        }
    }
    return found;
}

// `made`: what the program printed. Each figure of the page is on the paper, and no word of the paper is in a margin.
async function checkWords(page, name, made) {
    const file = join(work, 'words.html'), paper = join(work, 'words.pdf');
    writeFileSync(file, made);
    await open(page, file, 820, 'light');
    await page.emulateMedia({ media: 'print' });
    const onPage = digitsIn(await page.evaluate(() => document.body.innerText));
    for (const [format, landscape] of [['A4', false], ['Letter', false], ['A4', true]]) {
        await page.pdf({ path: paper, format, landscape, preferCSSPageSize: false });
        const boxes = execFileSync('pdftotext', ['-bbox', paper, '-'], { encoding: 'utf8', maxBuffer: 1 << 28 });
        const [, width, height] = boxes.match(/<page width="([0-9.]+)" height="([0-9.]+)">/).map(Number);
        const words = [...boxes.matchAll(/<word xMin="([-0-9.]+)" yMin="([-0-9.]+)" xMax="([-0-9.]+)" yMax="([-0-9.]+)">(.*)<\/word>/g)];
        const outside = words.filter(([, left, top, right, bottom]) =>
            left < MARGINS.side || right > width - MARGINS.side || top < MARGINS.end || bottom > height - MARGINS.end);
        const where = `${name}, ${format}${landscape ? ' across' : ''}`;
        check(words.length > 20, `${where}: it has words`, `${words.length}`);
        const over = overlaps(boxes);
        check(over.length === 0, `${where}: no word lies over another`, `${over.length}, first ${over[0]}`);
        check(outside.length === 0, `${where}: no word in the margins or outside`, `${outside.length} of ${words.length}, first ${outside[0]?.[5]}`);
        const onPaper = digitsIn(words.map(word => word[5]).join(''));
        const lost = [...'0123456789'].filter(digit => onPaper.split(digit).length < onPage.split(digit).length);
        check(onPage.length > 0 && lost.length === 0, `${where}: no figure is lost`, `too few of the digits ${lost.join(' ')}`);
    }
}

async function checkAllWords(page) {
    const demo = ['--kitchen', 'examples/millrace'], as = ['--as', 'html'];
    await checkWords(page, 'salts', quern('salts', ...as));
    for (const recipe of ['White bean and kale soup', 'Chicken breast out of a brine', 'Class menu, Tuesday']) {
        await checkWords(page, `trace of ${recipe}`, quern('trace', recipe, ...demo, ...as));
        await checkWords(page, `record of ${recipe}`, quern('trace', recipe, '--record', ...demo, ...as));
        await checkWords(page, `report of ${recipe}`, quern('report', ...as, '--recipe', recipe, 'examples/millrace'));
        await checkWords(page, `handout of ${recipe}`, quern('report', '--for', 'patients', ...as, '--recipe', recipe, 'examples/millrace'));
    }
    await checkWords(page, 'shopping', quern('shopping', ...demo, ...as));
    await checkWords(page, 'scaled recipe', quern('report', '--servings', '10', ...as, '--recipe', 'White bean and kale soup', 'examples/millrace'));
    await checkWords(page, 'comparison', quern('compare', 'Burger plate at home', 'Burger plate as a diner serves it', ...demo, ...as));
    await checkWords(page, 'ranking', quern('rank', ...as, 'examples/millrace'));
    for (const file of pagesOf(join(work, 'millrace')).filter(one => /index/.test(one)))
        await checkWords(page, file.slice(work.length + 1), readFileSync(file));
}

// ---- how a limit turned out: no traffic light ----

// As WCAG 2 defines it; axe does not judge words over a hatched ground.
function contrast(one, other) {
    const light = colour => colour.map(value => value / 255).map(value => value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4)
        .reduce((sum, value, i) => sum + value * [0.2126, 0.7152, 0.0722][i], 0);
    const [more, less] = [light(one), light(other)].sort((a, b) => b - a);
    return (more + 0.05) / (less + 0.05);
}

async function checkOutcomes(page) {
    const file = join(work, 'millrace', 'index.html');
    for (const [media, colorScheme, forcedColors] of [['screen', 'light', 'none'], ['screen', 'dark', 'none'], ['print', 'light', 'none'], ['screen', 'light', 'active']]) {
        await open(page, file, 820, colorScheme);
        await page.emulateMedia({ media, colorScheme, forcedColors });
        const name = `outcomes, ${media} ${colorScheme}${forcedColors === 'active' ? ', forced colours' : ''}`;
        const seen = await page.evaluate(() => Object.fromEntries(['body', '.kept', '.broken', '.doubtful'].map(one => {
            const style = getComputedStyle(document.querySelector(one));
            return [one, { colour: style.color.match(/[0-9]+/g).slice(0, 3).map(Number), paper: style.backgroundColor.match(/[0-9]+/g).slice(0, 3).map(Number), hatch: style.backgroundImage, line: style.textDecorationStyle + style.textDecorationLine }];
        })));
        const spread = colour => Math.max(...colour) - Math.min(...colour), [red, green, blue] = seen['.broken'].colour;
        check(`${seen['.kept'].colour}` === `${seen.body.colour}`, `${name}: within is ink`, `${seen['.kept'].colour}`);
        if (forcedColors === 'active') {
            check(/dotted.*underline/.test(seen['.doubtful'].line), `${name}: too close is dotted below`, seen['.doubtful'].line);
            continue;
        }
        for (const one of ['.broken', '.doubtful'])
            check(contrast(seen[one].colour, seen.body.paper) >= 4.5, `${name}: ${one} can be read`, `${contrast(seen[one].colour, seen.body.paper)}`);
        check(red > green + 40 && green > blue && blue > red / 6, `${name}: over is brick`, `${seen['.broken'].colour}`);
        check(spread(seen['.doubtful'].colour) <= 24 && `${seen['.doubtful'].colour}` !== `${seen.body.colour}`, `${name}: too close is grey`, `${seen['.doubtful'].colour}`);
        check(/repeating-linear-gradient/.test(seen['.doubtful'].hatch), `${name}: too close is hatched`, seen['.doubtful'].hatch);
    }
    await page.emulateMedia({ media: 'screen', forcedColors: 'none' });
}

async function keepShots(page) {
    mkdirSync(shots, { recursive: true });
    for (const file of pagesOf(join(work, 'millrace'))) {
        const name = join(shots, file.slice(join(work, 'millrace').length + 1, -5));
        for (const [size, width, scheme] of [['phone', 360, 'light'], ['tablet', 820, 'dark'], ['screen', 1280, 'light']]) {
            await open(page, file, width, scheme);
            await page.screenshot({ path: `${name}-${size}.png`, fullPage: true });
        }
        await page.emulateMedia({ media: 'print' });
        await page.pdf({ path: `${name}-a4.pdf`, format: 'A4' });
        await page.pdf({ path: `${name}-letter.pdf`, format: 'Letter' });
    }
}

const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });
try {
    const page = await start(browser);
    await checkKitchen(page, 'examples/millrace', 'millrace');
    await checkPaper(page, 'millrace', 'white-bean-and-kale-soup.html');
    await checkPaper(page, 'millrace', 'spaghetti-with-garlic-oil-and-its-own-water.html');
    await checkOutcomes(page);
    await checkAllWords(page);
    checkHostile(await checkKitchen(page, 'tests/pages/hostile', 'hostile'));
    if (shots) await keepShots(page);
} finally {
    await browser.close();
    rmSync(work, { recursive: true, force: true });
}
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed ? 1 : 0);
