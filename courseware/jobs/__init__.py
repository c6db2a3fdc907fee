"""What people ask for, one module each: build the course, issue a quiz, grade, certify, the demo."""
