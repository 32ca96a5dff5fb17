import { config } from 'zod';

// The page's content security policy forbids code made from text, which zod would try for each schema. Schemas are
// made as their modules load, so this module is imported before every other.
config({ jitless: true });
