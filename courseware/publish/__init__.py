"""HTML and PDF: lessons, quiz papers, reports, certificates; figures from the model."""
