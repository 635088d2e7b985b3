// node validate_gltf.js FILE: what the Khronos validator has to say of it, a line each.
const fs = require('fs');
const validator = require('gltf-validator');

validator.validateBytes(new Uint8Array(fs.readFileSync(process.argv[2]))).then(report => {
    for (const message of report.issues.messages)
        console.log(`severity ${message.severity}: ${message.code} at ${message.pointer}: ${message.message}`);
}).catch(error => {
    console.error(String(error));
    process.exit(1);
});
