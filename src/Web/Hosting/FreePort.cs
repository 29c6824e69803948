using System.Net;
using System.Net.Sockets;

namespace HeirloomArchive.Web.Hosting;

/// <summary>Looks whether the address is free before anything is started: said later, the reason would stand below a stack.</summary>
public static class FreePort
{
    /// <exception cref="StartException">Another program listens there already.</exception>
    public static void Check(IConfiguration configuration)
    {
        foreach (var address in Addresses.Of(configuration["urls"]!))
        {
            if (Place(address) is { Port: not 0 } place && IsTaken(place))
            {
                throw new StartException($"urls is '{address}', where another program listens already: end that one, or take another address with --urls=http://127.0.0.1:PORT.");
            }
        }
    }

    // Null for a name that only the network knows; the start itself tells of those.
    private static IPEndPoint? Place(string address)
    {
        var url = new Uri(Addresses.Readable(address));
        return url.Host == "localhost" ? new(IPAddress.Loopback, url.Port)
            : IPAddress.TryParse(url.Host.Trim('[', ']'), out var ip) ? new(ip, url.Port) : null;
    }

    private static bool IsTaken(IPEndPoint place)
    {
        using var listener = new TcpListener(place);
        try
        {
            listener.Start();
            return false;
        }
        catch (SocketException e)
        {
            return e.SocketErrorCode == SocketError.AddressAlreadyInUse;
        }
    }
}
