using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Shimwright.Storage;
using Shimwright.Web.Lan;

namespace Shimwright.Cli.Commands;

/// <summary>The options by which a bench is opened to the devices of a workshop.</summary>
internal sealed class LanOption
{
    private readonly Option<bool> _lan = new("--lan") { Description = "Open the bench to phones and other devices on the workshop's network, over HTTPS. Each device needs a code." };
    private readonly Option<string?> _certificate = new("--certificate") { Description = "Your own certificate with its key, PEM or PKCS #12, in place of the bench's own. With --lan.", HelpName = "FILE" };
    private readonly Option<string?> _proxy = new("--behind-proxy") { Description = "The address of a proxy that has the certificate. The bench answers it alone, over HTTP, and believes what it says of who calls. Every device is let in by a code.", HelpName = "ADDRESS" };
    private readonly Option<string[]> _hosts = new("--host") { Description = "Another name under which the bench is reached. Repeat it for several. With --lan or --behind-proxy.", HelpName = "NAME" };
    private readonly Option<bool> _lock = new("--lock") { Description = "Let in this machine too by a code only. With --lan." };

    public LanOption()
    {
        _proxy.Validators.Add(result => Say(result, "--behind-proxy", IsAddress, "allowed is an address such as 192.168.1.5"));
        _hosts.Validators.Add(result => Say(result, "--host", IsName, "allowed is a name such as bench.example.org, without a scheme or port"));
        _certificate.Validators.Add(result => Say(result, "--certificate", File.Exists, "there is no such file"));
    }

    public void AddTo(Command command)
    {
        Array.ForEach<Option>([_lan, _certificate, _proxy, _hosts, _lock], command.Add);
        command.Validators.Add(result =>
        {
            bool isLan = result.GetValue(_lan);
            bool isBehind = result.GetResult(_proxy) is not null;
            if (isLan && isBehind)
            {
                result.AddError("--lan and --behind-proxy: choose one.");
            }

            foreach ((Option option, bool isFor) in new (Option, bool)[] { (_certificate, isLan), (_lock, isLan), (_hosts, isLan || isBehind) })
            {
                if (result.GetResult(option) is { Implicit: false } && !isFor)
                {
                    result.AddError($"{option.Name}: found without --lan; add {(option == _hosts ? "--lan or --behind-proxy" : "--lan")}, or leave {option.Name} out.");
                }
            }
        });
    }

    /// <summary>How the bench is opened; null for this machine only.</summary>
    public LanOptions? Of(ParseResult parsed, BenchDatabase database, int port)
    {
        IPAddress? proxy = parsed.GetValue(_proxy) is { } address ? IPAddress.Parse(address) : null;
        if (!parsed.GetValue(_lan) && proxy is null)
        {
            return null;
        }

        string folder = database.File is { } file ? file + ".tls" : Path.Combine(BenchDatabase.DataFolder, "tls");
        return new(folder, port is 0 or 65535 ? 0 : port + 1, parsed.GetValue(_certificate), [.. (parsed.GetValue(_hosts) ?? []).Select(h => new IdnMapping().GetAscii(h))], proxy, parsed.GetValue(_lock));
    }

    /// <summary>Written out in full: 192.168.15 is an address to a machine, and another one than it looks like.</summary>
    private static bool IsAddress(string text) => IPAddress.TryParse(text, out IPAddress? address) && (address.AddressFamily != AddressFamily.InterNetwork || address.ToString() == text);

    private static bool IsName(string text) => Uri.CheckHostName(text) is UriHostNameType.Dns && !text.Contains('*', StringComparison.Ordinal);

    private static void Say(OptionResult result, string option, Func<string, bool> isRight, string allowed)
    {
        foreach (Token wrong in result.Tokens.Where(t => !isRight(t.Value)))
        {
            result.AddError($"{option}: found \"{wrong.Value}\", {allowed}.");
        }
    }
}
