/** What a script prints whose program does not exist yet: node electron/not-built.mjs NAME */
console.error(`npm run ${process.argv[2]}: not built yet.`);
process.exitCode = 2;
