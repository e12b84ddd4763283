"""From a build to findings: one module a topic, each wiring the build to the physics."""
