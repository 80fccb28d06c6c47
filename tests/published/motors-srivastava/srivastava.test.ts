import { checkBook } from "../motors-support/checkBook.ts";
import book from "./data.json" with { type: "json" };

checkBook(book);
