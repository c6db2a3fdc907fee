"""Responses in, marks and feedback out; decisions are pure, no file is touched."""
