// What quern prints as JSON against its schemas, read by an independent validator in its strict mode.
import Ajv2020 from "ajv/dist/2020.js"
import { execFileSync } from "node:child_process"
import { readFileSync, readdirSync } from "node:fs"

const KITCHEN = ["--kitchen", "examples/millrace"]

// [schema, the definition in it, what is asked for]
const DOCUMENTS = [
    ["report", "report", ["report", "--as", "json", "examples/millrace"]],
    ["report", "check", ["check", "--as", "json", "--claims", "examples/millrace"]],
    ["lookup", "lookup", ["lookup", "--as", "json", "beans"]],
    ["trace", "trace", ["trace", "--as", "json", "Plain loaf", ...KITCHEN]],
    ["compare", "compare", ["compare", "--as", "json", "Plain loaf", "Skillet cornbread", ...KITCHEN]],
    ["rank", "rank", ["rank", "--as", "json", "examples/millrace"]],
    ["shopping", "shopping", ["shopping", "--as", "json", "Plain loaf", ...KITCHEN]],
    ["salts", "salts", ["salts", "--as", "json"]],
]

// What the program prints; findings are no failure of it.
function printed(command) {
    try {
        return execFileSync(process.env.QUERN, command, { maxBuffer: 1 << 28 })
    } catch (failed) {
        if (failed.status === 1)
            return failed.stdout
        throw failed
    }
}

let passed = 0, failed = 0
function check(name, good, detail) {
    good ? passed++ : failed++
    if (!good)
        console.log(`FAILED ${name}: ${detail}`)
}

// `anyOf` with one required field each is how a schema says "one of these": strict mode would have it said otherwise.
const ajv = new Ajv2020({ strict: true, strictRequired: false, allowUnionTypes: true, allErrors: true })
for (const file of readdirSync("docs/schema").filter((name) => name.endsWith(".json"))) {
    const kind = file.replace("-2.json", "")
    check(`${file} is used`, DOCUMENTS.some(([schema]) => schema === kind), "no document here is checked with it")
    try {
        ajv.addSchema(JSON.parse(readFileSync(`docs/schema/${file}`, "utf8")), kind)
    } catch (fault) {
        check(`${file} is a schema`, false, fault.message)
    }
}
for (const [kind, definition, command] of DOCUMENTS) {
    try {
        const validate = ajv.compile({ $ref: `${kind}#/$defs/${definition}` })
        const document = JSON.parse(printed(command))
        check(`quern ${command.join(" ")}`, validate(document), ajv.errorsText(validate.errors?.slice(0, 3)))
        check(`quern ${command[0]} is told from nothing`, !validate({}), "an empty object fits the schema")
    } catch (fault) {
        check(`quern ${command.join(" ")}`, false, fault.message)
    }
}
console.log(`${passed} passed, ${failed} failed`)
process.exit(failed || !passed ? 1 : 0)
