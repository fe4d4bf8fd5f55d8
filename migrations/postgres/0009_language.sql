-- The language that a person is spoken to in, by its tag ("es"); null is the one that the browser asks for.
ALTER TABLE account ADD COLUMN language TEXT;
