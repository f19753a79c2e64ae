// Validates glTF files with the validator of the standard's own makers (gltf-validator, from npm); prints one report for
// each as JSON.
//
//     node check_gltf.js FILE...

const fs = require("fs");
const validator = require("gltf-validator");

async function main() {
  const reports = [];
  for (const name of process.argv.slice(2)) {
    reports.push(await validator.validateBytes(new Uint8Array(fs.readFileSync(name)), { maxIssues: 100 }));
  }
  console.log(JSON.stringify(reports));
}

main().catch((error) => {
  console.error(error);
  process.exit(1);
});
