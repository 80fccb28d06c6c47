#!/usr/bin/env node
// The packages export their TypeScript sources; tsx lets Node run them without a build step.
import { register } from "tsx/esm/api";

register();
await import("../src/main.ts");
