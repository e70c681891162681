import type { HeardWord, Hypothesis } from "../../../meaning/heard.ts";
import type { Found, ScoredWord } from "./search.ts";
