process.exitCode = 2;
