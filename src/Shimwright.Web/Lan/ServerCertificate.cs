using System.Security.Cryptography.X509Certificates;

namespace Shimwright.Web.Lan;

/// <summary>The certificate that the server shows: made anew before it ends, and when the machine gets another name or address.</summary>
public sealed class ServerCertificate : IDisposable
{
    private static readonly TimeSpan RenewedBefore = TimeSpan.FromDays(30);

    private readonly Authority? _authority;
    private readonly CertificateFiles? _files;
    private readonly Lock _one = new();

    // Those before it may still be shown to a connection that has just begun.
    private readonly List<X509Certificate2> _all = [];
    private volatile X509Certificate2 _current;

    private ServerCertificate(X509Certificate2 current, Authority? authority, CertificateFiles? files)
    {
        _all.Add(current);
        _current = current;
        _authority = authority;
        _files = files;
    }

    /// <summary>The one that is shown now.</summary>
    public X509Certificate2 Current => _current;

    /// <summary>One's own certificate, which is left as it is.</summary>
    /// <param name="file">A file with the certificate and its key: PEM, or PKCS #12 without a password.</param>
    /// <returns>The certificate.</returns>
    /// <exception cref="LanException">It cannot be used.</exception>
    public static ServerCertificate Own(string file)
    {
        ArgumentNullException.ThrowIfNull(file);
        try
        {
            X509Certificate2 own = Path.GetExtension(file).ToUpperInvariant() is ".PFX" or ".P12"
                ? X509CertificateLoader.LoadPkcs12FromFile(file, null)
                : CertificateFiles.WithKey(X509Certificate2.CreateFromPemFile(file));
            return own.HasPrivateKey ? new(own, null, null) : throw new LanException($"--certificate: {file} has no key; name a file with the certificate and its key");
        }
        catch (Exception e) when (e is System.Security.Cryptography.CryptographicException or IOException or UnauthorizedAccessException)
        {
            throw new LanException($"--certificate: {file} cannot be used ({e.Message.TrimEnd('.')}); name a file with the certificate and its key, PEM or PKCS #12", e);
        }
    }

    /// <summary>A certificate for names, by an authority; the one of last time where it still does.</summary>
    /// <param name="authority">The authority.</param>
    /// <param name="folder">Where it is kept.</param>
    /// <param name="names">The names and addresses.</param>
    /// <param name="now">The time.</param>
    /// <returns>The certificate.</returns>
    public static ServerCertificate By(Authority authority, string folder, IReadOnlyList<string> names, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(authority);
        CertificateFiles files = new(folder, "server");
        X509Certificate2? kept = null;
        try
        {
            kept = files.Read();
        }
        catch (LanException)
        {
            // It is made anew in any case.
        }

        if (kept is not null && Does(kept, authority, names, now))
        {
            return new(kept, authority, files);
        }

        kept?.Dispose();
        return new(Make(authority, files, names, now), authority, files);
    }

    /// <summary>Makes it anew where it no longer does.</summary>
    /// <param name="names">The names and addresses now.</param>
    /// <param name="now">The time.</param>
    /// <returns>Whether it was made anew.</returns>
    public bool Follow(IReadOnlyList<string> names, DateTimeOffset now)
    {
        lock (_one)
        {
            if (_authority is null || Does(_current, _authority, names, now))
            {
                return false;
            }

            _current = Make(_authority, _files!, names, now);
            _all.Add(_current);
            return true;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _all.ForEach(c => c.Dispose());
        _authority?.Dispose();
    }

    private static X509Certificate2 Make(Authority authority, CertificateFiles files, IReadOnlyList<string> names, DateTimeOffset now)
    {
        using X509Certificate2 made = authority.Vouch(names, now);
        files.Write(made);
        return files.Read()!;
    }

    private static bool Does(X509Certificate2 certificate, Authority authority, IReadOnlyList<string> names, DateTimeOffset now)
    {
        // None lasts longer than the authority: near its end there is no better one.
        bool isEnding = certificate.NotAfter < now.LocalDateTime + RenewedBefore && certificate.NotAfter < authority.EndsAt;
        if (isEnding || certificate.Extensions.OfType<X509SubjectAlternativeNameExtension>().FirstOrDefault() is not { } alternatives)
        {
            return false;
        }

        HashSet<string> has = new([.. alternatives.EnumerateDnsNames(), .. alternatives.EnumerateIPAddresses().Select(a => a.ToString())], StringComparer.OrdinalIgnoreCase);
        return names.All(has.Contains);
    }
}
