using System.Text;

namespace Shimwright.Cli.Answers;

/// <summary>Writes lines on without the blanks at their ends, which tables leave and files and diffs do not want.</summary>
internal sealed class TrimmedWriter(TextWriter inner) : TextWriter
{
    private int _blanks;

    public override Encoding Encoding => inner.Encoding;

    public override void Write(char value)
    {
        if (value == ' ')
        {
            _blanks++;
            return;
        }

        if (value is not '\n' and not '\r')
        {
            inner.Write(new string(' ', _blanks));
        }

        _blanks = 0;
        inner.Write(value);
    }

    public override void Flush() => inner.Flush();
}
