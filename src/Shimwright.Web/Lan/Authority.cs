using System.Formats.Asn1;
using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Shimwright.Web.Lan;

/// <summary>
/// The bench's own authority: it vouches for the bench's certificate, and for nothing outside the workshop's network. A phone that trusts it cannot be
/// deceived about any other site, not even by whoever steals its key.
/// </summary>
public sealed class Authority : IDisposable
{
    private const string Constraints = "2.5.29.30";
    private static readonly Asn1Tag Name = new(TagClass.ContextSpecific, 2);
    private static readonly TimeSpan Lasts = TimeSpan.FromDays(3650);

    /// <summary>Phones take no certificate of a server that lasts longer than 398 days.</summary>
    private static readonly TimeSpan ServerLasts = TimeSpan.FromDays(397);

    /// <summary>Clocks of phones are not all right.</summary>
    private static readonly TimeSpan Before = TimeSpan.FromDays(1);

    private readonly X509Certificate2 _certificate;

    private Authority(X509Certificate2 certificate) => _certificate = certificate;

    /// <summary>The certificate without its key, as a phone takes it.</summary>
    /// <returns>DER.</returns>
    public byte[] Certificate() => _certificate.Export(X509ContentType.Cert);

    /// <summary>What tells this authority from any other: SHA-256, in pairs.</summary>
    public string Fingerprint => string.Join(' ', Convert.ToHexString(SHA256.HashData(_certificate.RawData)).Chunk(4).Select(c => new string(c)));

    /// <summary>The authority of a folder; it is made on first use.</summary>
    /// <param name="folder">The folder, beside the database.</param>
    /// <param name="names">Names for which it may vouch beside those of the workshop's network.</param>
    /// <param name="now">The time.</param>
    /// <returns>The authority.</returns>
    /// <exception cref="LanException">What lies there cannot be used.</exception>
    public static Authority In(string folder, IEnumerable<string> names, DateTimeOffset now)
    {
        var files = new CertificateFiles(folder, "authority");
        if (files.Read() is { } kept)
        {
            return kept.NotAfter > now
                ? new(kept)
                : throw new LanException($"the bench's authority in {folder} ended on {kept.NotAfter:yyyy-MM-dd}; remove the folder, start again, and trust the new one on each phone");
        }

        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        CertificateRequest request = new("CN=Shimwright bench, O=This workshop only", key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(certificateAuthority: true, hasPathLengthConstraint: true, pathLengthConstraint: 0, critical: true));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.KeyCertSign | X509KeyUsageFlags.CrlSign, critical: true));
        request.CertificateExtensions.Add(new X509SubjectKeyIdentifierExtension(request.PublicKey, critical: false));
        request.CertificateExtensions.Add(OnlyFor(["local", "localhost", .. names]));
        using X509Certificate2 made = request.CreateSelfSigned(now - Before, now + Lasts);
        files.Write(made);
        return new(files.Read()!);
    }

    /// <summary>When it ends.</summary>
    public DateTime EndsAt => _certificate.NotAfter;

    /// <summary>Whether it may vouch for a name. That was settled when it was made.</summary>
    /// <param name="name">The name.</param>
    /// <returns>Whether it may.</returns>
    public bool MayVouchFor(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        X509Extension constraints = _certificate.Extensions.First(e => e.Oid?.Value == Constraints);
        AsnReader permitted = new AsnReader(constraints.RawData, AsnEncodingRules.DER).ReadSequence().ReadSequence(new Asn1Tag(TagClass.ContextSpecific, 0));
        while (permitted.HasData)
        {
            AsnReader subtree = permitted.ReadSequence();
            if (subtree.PeekTag().HasSameClassAndValue(Name))
            {
                string one = subtree.ReadCharacterString(UniversalTagNumber.IA5String, Name);
                if (name.Equals(one, StringComparison.OrdinalIgnoreCase) || name.EndsWith("." + one, StringComparison.OrdinalIgnoreCase))
                {
                    return true;
                }
            }
        }

        return false;
    }

    /// <summary>A certificate for the server.</summary>
    /// <param name="names">The names and addresses under which it is reached.</param>
    /// <param name="now">The time.</param>
    /// <returns>The certificate with its key.</returns>
    public X509Certificate2 Vouch(IReadOnlyList<string> names, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(names);
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        CertificateRequest request = new("CN=Shimwright", key, HashAlgorithmName.SHA256);
        SubjectAlternativeNameBuilder alternatives = new();
        foreach (string name in names)
        {
            if (IPAddress.TryParse(name, out IPAddress? address))
            {
                alternatives.AddIpAddress(address);
            }
            else
            {
                alternatives.AddDnsName(name);
            }
        }

        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(certificateAuthority: false, hasPathLengthConstraint: false, pathLengthConstraint: 0, critical: true));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.DigitalSignature, critical: true));
        request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid("1.3.6.1.5.5.7.3.1")], critical: false));
        request.CertificateExtensions.Add(X509AuthorityKeyIdentifierExtension.CreateFromCertificate(_certificate, includeKeyIdentifier: true, includeIssuerAndSerial: false));
        request.CertificateExtensions.Add(alternatives.Build());
        DateTimeOffset end = now + ServerLasts < _certificate.NotAfter ? now + ServerLasts : _certificate.NotAfter;
        using X509Certificate2 made = request.Create(_certificate, now - Before, end, RandomNumberGenerator.GetBytes(16));
        return made.CopyWithPrivateKey(key);
    }

    /// <inheritdoc/>
    public void Dispose() => _certificate.Dispose();

    /// <summary>Name constraints (RFC 5280, 4.2.1.10): the only names and addresses for which the authority may vouch.</summary>
    private static X509Extension OnlyFor(IEnumerable<string> names)
    {
        AsnWriter writer = new(AsnEncodingRules.DER);
        using (writer.PushSequence())
        using (writer.PushSequence(new Asn1Tag(TagClass.ContextSpecific, 0)))
        {
            foreach (string name in names)
            {
                using (writer.PushSequence())
                {
                    writer.WriteCharacterString(UniversalTagNumber.IA5String, name, Name);
                }
            }

            foreach (IPNetwork range in PrivateNetwork.Ranges)
            {
                using (writer.PushSequence())
                {
                    writer.WriteOctetString([.. range.BaseAddress.GetAddressBytes(), .. MaskOf(range)], new Asn1Tag(TagClass.ContextSpecific, 7));
                }
            }
        }

        return new X509Extension(Constraints, writer.Encode(), critical: true);
    }

    private static byte[] MaskOf(IPNetwork range)
    {
        byte[] mask = new byte[range.BaseAddress.GetAddressBytes().Length];
        for (int bit = 0; bit < range.PrefixLength; bit++)
        {
            mask[bit / 8] |= (byte)(0x80 >> (bit % 8));
        }

        return mask;
    }
}

/// <summary>What keeps the bench from being opened on the workshop's network, for people.</summary>
public sealed class LanException : Exception
{
    /// <summary>Nothing is said.</summary>
    public LanException()
    {
    }

    /// <summary>What it is.</summary>
    /// <param name="message">What it is, and what to do.</param>
    public LanException(string message)
        : base(message)
    {
    }

    /// <summary>What it is, and why.</summary>
    /// <param name="message">What it is, and what to do.</param>
    /// <param name="innerException">Why.</param>
    public LanException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}
