"""inputs."""
