using System.Net.Sockets;

namespace RollRide.Live;

/// <summary>The port asked for cannot be had.</summary>
/// <param name="port">The port.</param>
/// <param name="cause">The exception behind it.</param>
internal sealed class PortException(int port, Exception cause)
    : Exception($"port {port} {(cause is SocketException { SocketErrorCode: SocketError.AccessDenied } ? "is reserved by the system" : "is in use by another program")}: give another, or leave out --port for a free one", cause);
