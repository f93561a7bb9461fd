"""The process: the HTTP server around the application, its workers, and how it starts and stops."""
