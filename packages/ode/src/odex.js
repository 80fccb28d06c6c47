export { Solver } from "odex";
