# The server alone: no shell, no package manager, an unprivileged user.
FROM rust:1.95-slim AS build
WORKDIR /src
COPY . .
RUN cargo build --release --locked && mkdir /data

FROM gcr.io/distroless/cc-debian13:nonroot
COPY --from=build /src/target/release/sowmark /usr/local/bin/sowmark
COPY --from=build --chown=nonroot:nonroot /data /data
WORKDIR /data
VOLUME /data
EXPOSE 8080
ENTRYPOINT ["/usr/local/bin/sowmark"]
CMD ["serve"]
